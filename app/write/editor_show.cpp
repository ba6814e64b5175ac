#include "app/write/editor_show.h"

#include "app/write/sheet_preview.h"
#include "app/write/whole_sides.h"
#include "common/script/shapes.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::write
{

namespace
{

QString tr(const char* text)
{
    return QCoreApplication::translate("vh::write::EditorPage", text);
}

QString text(const std::string& words)
{
    return QString::fromStdString(words);
}

bool isSpoken(const Step& step)
{
    return std::any_of(step.rounds.begin(), step.rounds.end(), [](const Round& round) {
        return std::any_of(round.turns.begin(), round.turns.end(), [](const Turn& turn) {
            return turn.kind == TurnKind::withMe || turn.kind == TurnKind::yours;
        });
    });
}

Millis lengthOf(const Step& step)
{
    Millis length{0};
    for (const Round& round : step.rounds)
        for (const Turn& turn : round.turns)
            length += turn.planned;
    return length;
}

QString oneLine(const std::string& words)
{
    return text(words).simplified();
}

StepRow rowOf(const Section& section, const Step& step, Spot spot)
{
    StepRow row;
    row.spot = spot;
    row.pause = section.kind == SectionKind::pause;
    row.toWrite = isToWrite(step);
    row.words = row.toWrite ? (step.note.empty() ? tr("To write") : oneLine(step.note)) : oneLine(step.text);
    if (row.words.isEmpty())
        row.words = tr("Quiet");
    return row;
}

void showRows(EditorView& view, const ClassDocument& document)
{
    const ClassScript& script = document.script();
    view.rows.push_back({StepRow::Kind::wholeClass, {}, tr("The class"), clockWords(document.plan().total)});
    for (int i = 0; i < static_cast<int>(script.sections.size()); ++i) {
        const Section& section = script.sections[static_cast<std::size_t>(i)];
        StepRow part{StepRow::Kind::part, {i, -1}, text(section.title), {}};
        part.pause = section.kind == SectionKind::pause;
        if (part.words.isEmpty())
            part.words = wordsOf(section.kind);
        part.length = clockWords(document.plan().sectionLengths[static_cast<std::size_t>(i)]);
        view.rows.push_back(part);
        for (int k = 0; k < static_cast<int>(section.steps.size()); ++k)
            view.rows.push_back(rowOf(section, section.steps[static_cast<std::size_t>(k)], {i, k}));
    }
    for (StepRow& row : view.rows)
        row.remarks = static_cast<int>(std::count_if(document.remarks().begin(), document.remarks().end(),
                                                     [&](const Remark& remark) { return remark.spot == row.spot; }));
    const auto here = std::find_if(view.rows.begin(), view.rows.end(),
                                   [&](const StepRow& row) { return row.spot == document.spot(); });
    view.current = here == view.rows.end() ? 0 : static_cast<int>(here - view.rows.begin());
}

void showRail(EditorView& view, const ClassDocument& document)
{
    for (std::size_t i = 0; i < document.script().sections.size(); ++i) {
        const Section& section = document.script().sections[i];
        view.rail.parts.push_back({text(section.title), document.plan().sectionLengths[i],
                                   section.kind == SectionKind::pause, wordsOf(section.kind)});
    }
    view.rail.current = document.spot().section;
}

void showStep(EditorView& view, const ClassDocument& document, const ShowOptions& options)
{
    const Step* step = document.step();
    const Section* section = document.section();
    if (section) {
        view.part = {text(section->title), section->kind};
        view.step.where = tr("%1, step %2 of %3, %4")
                              .arg(text(section->title))
                              .arg(document.spot().step + 1)
                              .arg(section->steps.size())
                              .arg(step ? clockWords(lengthOf(*step)) : QString());
    }
    if (!step)
        return;
    StepFields& fields = view.step;
    fields.text = document.text();
    fields.inPause = section->kind == SectionKind::pause;
    fields.wouldBeGood = fields.inPause       ? tr("A pause asks nothing: nothing to read, nothing to answer.")
                         : step->note.empty() ? tr("Still to write.")
                                              : tr("Still to write. %1").arg(text(step->note));
    if (!isToWrite(*step)) {
        fields.marked = step->text;
        fields.marks = step->stretches;
    }
    fields.note = text(step->note);
    fields.rounds = step->rounds;
    fields.dearness = step->optionalDearness;
    fields.hasPicture = step->picture.has_value();
    if (step->picture) {
        fields.picture = options.picture(step->picture->file);
        fields.description = text(step->picture->description);
    }
}

/// As a home shows it; see JoinModel::describeTurn().
void showSheet(EditorView& view, const ClassDocument& document, const ShowOptions& options)
{
    const Step* step = stepAt(document.tidy(), document.spot());
    const look::TextSize size = options.largest ? look::TextSize::largest : look::TextSize::usual;
    view.largest = options.largest;
    view.sheetTurn = options.sheetTurn;
    view.sheetSize = homeSheet(size, step && isSpoken(*step));
    view.sheet.text.limits = kHomeText;
    if (!step) {
        view.sheet.cue.words = tr("Welcome");
        view.sheet.text.text = document.section() ? document.section()->title : document.script().title;
        return;
    }
    if (document.section()->kind == SectionKind::pause) {
        view.sheet.cue.words = tr("Water pause");
        return;
    }
    const bool asks = isSpoken(*step);
    const bool more =
        std::any_of(step->rounds.begin(), step->rounds.end(), [](const Round& round) { return round.moreVoice; });
    view.sheet.cue.turn = asks ? options.sheetTurn : TurnKind::listen;
    view.sheet.cue.moreVoice = asks && more && options.sheetTurn == TurnKind::yours;
    view.sheet.text.text = step->text;
    view.sheet.text.stretches = step->stretches;
    view.sheet.picture = view.step.picture;
    view.sheet.pictureDescription = view.step.description;
}

QString mendWords(const Remark& remark)
{
    if (remark.leaveOut)
        return tr("Leave it out");
    if (!remark.finding || !remark.finding->mend)
        return {};
    const Mend& mend = *remark.finding->mend;
    switch (mend.kind) {
    case Mend::Kind::markVowels:
        return tr("Mark the vowels");
    case Mend::Kind::readyBefore:
        return tr("Put Ready before it");
    case Mend::Kind::turnLength:
        return tr("Make it %1 s").arg(static_cast<double>(mend.length.count()) / 1000);
    case Mend::Kind::waterBefore:
        return tr("A pause before it");
    case Mend::Kind::emptyPause:
        return tr("Take the text out");
    case Mend::Kind::addCautions:
        return tr("Put them in");
    case Mend::Kind::plannedMinutes:
        return tr("Plan %1 minutes").arg(std::chrono::round<std::chrono::minutes>(mend.length).count());
    }
    return {};
}

QString placeWords(const ClassDocument& document, const Remark& remark)
{
    const Section* section = sectionAt(document.script(), remark.spot);
    if (!section)
        return tr("The class");
    const QString title = section->title.empty() ? wordsOf(section->kind) : text(section->title);
    return remark.spot.step < 0 ? title : tr("%1, step %2").arg(title).arg(remark.spot.step + 1);
}

void showRemarks(EditorView& view, const ClassDocument& document)
{
    for (const Remark& remark : document.remarks()) {
        view.remarks.push_back({placeWords(document, remark), text(remark.why), mendWords(remark)});
        view.canMend = view.canMend || remark.canMend();
        view.canMark = view.canMark ||
                       (remark.finding && remark.finding->mend && remark.finding->mend->kind == Mend::Kind::markVowels);
    }
    view.toWrite = static_cast<int>(document.toWrite().size());
    const auto count = static_cast<int>(view.remarks.size());
    QStringList words;
    if (view.toWrite > 0)
        words << (view.toWrite == 1 ? tr("One text is still to write.")
                                    : tr("%1 texts are still to write.").arg(view.toWrite));
    if (count > 0)
        words << (count == 1 ? tr("One thing to look at:") : tr("%1 things to look at:").arg(count));
    view.remarksWords = words.isEmpty() ? tr("Nothing is left to write or to look at.") : words.join(u' ');
}

NoticeLine::State keptOf(const ClassDocument& document, const DraftKeeper::State& kept, const ShowOptions& options)
{
    using Kept = DraftKeeper::State::Kept;
    if (kept.kept == Kept::cannot)
        return {tr("What you write cannot be put on the disk: %1. It is tried again; please do not close Voicehall.")
                    .arg(kept.why),
                NoticeLine::Tone::heed};
    if (!options.said.isEmpty())
        return {options.said, NoticeLine::Tone::calm};
    // "Soon" is no news: the words would change with every key.
    return {!options.unsaved     ? QString()
            : document.isClass() ? tr("Kept as a draft until you save it.")
                                 : tr("Kept as a draft: no class yet."),
            NoticeLine::Tone::calm};
}

} // namespace

EditorView viewOf(const ClassDocument& document, const DraftKeeper::State& kept, const ShowOptions& options)
{
    EditorView view;
    const ClassScript& script = document.script();
    view.title = script.title.empty() ? tr("A class without a title") : text(script.title);
    view.times = (document.pace().isAsPlanned() ? tr("%1 of %2 minutes") : tr("%1 of %2 minutes, at your pace"))
                     .arg(clockWords(document.plan().total))
                     .arg(script.plannedMinutes);
    view.kept = keptOf(document, kept, options);
    view.whole = {text(script.title), text(script.theme), text(script.language), script.plannedMinutes};
    showRows(view, document);
    showRail(view, document);
    showStep(view, document, options);
    showSheet(view, document, options);
    showRemarks(view, document);
    view.canUndo = document.undoStack().canUndo();
    view.canRedo = document.undoStack().canRedo();
    return view;
}

} // namespace vh::write
