// What the board, the people and an answer look like, in words.
#include "app/join/join_model.h"

#include "app/look/look.h"

#include <QCoreApplication>
#include <QDateTime>

#include <algorithm>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::JoinModel", source);
}

constexpr qsizetype kMostBreaks = 5; ///< a line of many lines is one all the same
constexpr qsizetype kGlance = 90;
constexpr std::size_t kNamesInRow = 24;
constexpr std::size_t kRoomSteps[] = {10, 20, 50}; ///< letters left, when it is said

QString glanceAt(const QString& words)
{
    const QString line = words.simplified();
    return line.size() <= kGlance ? line : line.left(kGlance - 1).trimmed() + QChar(0x2026);
}

QString shownText(const QString& text)
{
    return text.count('\n') > kMostBreaks ? text.simplified() : text;
}

QString standWords(const BoardLine& line, bool lineUp)
{
    switch (line.stand) {
    case Stand::notMine:
        break;
    case Stand::onItsWay:
        return lineUp ? tr("on its way") : tr("goes out when the line is back");
    case Stand::toRead:
        return line.isPicture ? tr("a helper looks at it first") : tr("a helper reads it first");
    case Stand::withLeader:
        return tr("with the leader");
    case Stand::read:
        return line.isPicture ? tr("a helper has looked at it") : tr("a helper has read it");
    case Stand::onBoard:
        return tr("on the board");
    case Stand::offBoard:
        return tr("no longer on the board");
    case Stand::takenBack:
        return tr("taken back");
    case Stand::refused:
        return line.about;
    }
    return {};
}

/// What one press does with a line of one's own.
std::pair<QString, look::Sign> actOf(Stand stand)
{
    switch (stand) {
    case Stand::onItsWay:
    case Stand::toRead:
    case Stand::withLeader:
    case Stand::onBoard:
        return {tr("Take it back"), look::Sign::undo};
    case Stand::takenBack:
        return {tr("Write it again"), look::Sign::write};
    case Stand::refused:
        return {tr("Change it"), look::Sign::write};
    case Stand::notMine:
    case Stand::read:
    case Stand::offBoard:
        break;
    }
    return {};
}

/// As large and as wide as the picture will be, until it is here.
QImage placeOf(const wire::PictureAbout& about)
{
    const QSize size = QSize(static_cast<int>(std::clamp(about.width, 1U, 1U << 16)),
                             static_cast<int>(std::clamp(about.height, 1U, 1U << 16)))
                           .scaled(pictures::kSmallEdge, pictures::kSmallEdge, Qt::KeepAspectRatio)
                           .expandedTo({1, 1});
    QImage place(size, QImage::Format_RGB32);
    place.fill(look::Look::current().palette().quiet);
    return place;
}

BoardRow rowOf(const BoardLine& line, bool lineUp)
{
    BoardRow row;
    row.key = line.key;
    row.text = shownText(line.text);
    if (line.isPicture && row.text.isEmpty())
        row.text = tr("A picture");
    if (line.isMine()) {
        row.kind = BoardRow::Kind::mine;
        row.head = tr("You");
        row.below = standWords(line, lineUp);
        std::tie(row.act, row.sign) = actOf(line.stand);
    } else if (line.kind == BoardLine::Kind::answer) {
        row.kind = BoardRow::Kind::answer;
        row.head = line.name.isEmpty() ? tr("A helper") : line.name;
        row.below = tr("to you alone, about: %1").arg(glanceAt(line.about));
    } else if (line.kind == BoardLine::Kind::notice) {
        row.kind = BoardRow::Kind::notice;
        row.head = tr("From the desk");
    } else {
        row.head = line.name.isEmpty() ? tr("Somebody") : line.name;
    }
    if (line.isPicture) {
        row.pictureDescribed = tr("A picture");
        row.act = line.picture && line.stand != Stand::takenBack ? tr("See it large") : QString();
        row.sign = look::Sign::seen;
    }
    return row;
}

/// How much room is left for the line that is being written; empty: enough.
QString roomWords(const QString& draft)
{
    const auto written = static_cast<std::size_t>(draft.toUcs4().size());
    if (written >= wire::kChatLength)
        return tr("This is all there is room for: %1 letters.").arg(wire::kChatLength);
    for (const std::size_t step : kRoomSteps)
        if (wire::kChatLength - written <= step)
            return tr("There is room for %1 more letters at most.").arg(step);
    return {};
}

} // namespace

QString pausedWords(const WordsHere& words)
{
    if (!words.restsUntil())
        return {};
    if (*words.restsUntil() - words.now() > wire::kQuietFor)
        return tr(
            "A helper has asked you to pause writing until the class is over. You can call for help at any time.");
    const auto until = QDateTime::fromMSecsSinceEpoch(words.restsUntil()->time_since_epoch().count());
    return tr("A helper has asked you to pause writing until %1. You can call for help at any time.")
        .arg(until.toString(QStringLiteral("H:mm")));
}

QString JoinModel::othersWords() const
{
    const std::uint32_t others = m_here > 0 ? m_here - 1 : 0;
    return others == 1 ? tr("1 other is here") : tr("%1 others are here").arg(others);
}

QString JoinModel::boardWords() const
{
    if (m_words.boardRests())
        return tr("is quiet");
    if (const std::uint32_t count = m_words.newLines(); count > 0)
        return tr("%1 new").arg(std::min(count, 99U));
    return m_words.restsUntil() ? tr("to read") : tr("to write");
}

/// Whose turn it is, for whoever looks at something else meanwhile.
CueBadge::State JoinModel::cueBeside(const link::ClassFollow* follow) const
{
    const auto at = follow ? follow->turn() : std::nullopt;
    if (!at || isBefore(follow) || !follow->place())
        return {};
    return cue(*at, *follow->place());
}

BoardView JoinModel::boardView(const link::ClassFollow* follow) const
{
    BoardView view;
    view.heading = tr("The board");
    view.words = m_words.boardRests() ? tr("The board rests while we practise. New lines come in at the next pause.")
                                      : othersWords();
    view.cue = cueBeside(follow);
    const bool lineUp = m_line == link::LineState::in;
    for (const BoardLine& line : m_words.lines())
        if (!line.text.isEmpty() || line.isPicture) {
            view.rows.push_back(rowOf(line, lineUp));
            if (line.picture && line.stand != Stand::takenBack)
                view.rows.back().picture = pictureFor(*line.picture);
        }
    view.nothing = tr("Nothing is on the board yet.");
    view.draft = m_words.draft();
    view.writing = m_words.restsUntil() ? BoardView::Writing::paused : BoardView::Writing::open;
    view.canSeePeople = true;
    view.back = tr("Back to the class");
    const QString room = roomWords(view.draft);
    if (m_words.restsUntil())
        view.notice = {pausedWords(m_words), NoticeLine::Tone::calm};
    else if (m_words.said().heed)
        view.notice = {m_words.said().words, NoticeLine::Tone::heed};
    else if (!room.isEmpty())
        view.notice = {room, NoticeLine::Tone::calm};
    else if (!lineUp)
        view.notice = {tr("The line is lost. What you send goes out once, as soon as it is back."),
                       NoticeLine::Tone::heed};
    else
        view.notice = {m_words.said().words, NoticeLine::Tone::calm};
    return view;
}

BoardView JoinModel::peopleView(const link::ClassFollow* follow) const
{
    BoardView view;
    view.heading = tr("Who is here");
    view.words = othersWords();
    view.cue = cueBeside(follow);
    view.writing = BoardView::Writing::none;
    view.back = tr("Back to the board");
    if (!m_agreements.nameSeen) {
        view.nothing = tr("People who show their names see one another's. You keep yours to yourself; My choices has "
                          "a control for it.");
        return view;
    }
    view.nothing = m_people ? tr("Nobody else who shows their name is here just now.") : tr("One moment.");
    QStringList names;
    for (const std::string& name : m_people ? m_people->names : std::vector<std::string>{})
        names.append(QString::fromStdString(name).replace(' ', QChar::Nbsp)); // a name stays on one line
    std::sort(names.begin(), names.end(),
              [](const QString& a, const QString& b) { return QString::localeAwareCompare(a, b) < 0; });
    for (std::size_t at = 0; at < static_cast<std::size_t>(names.size()); at += kNamesInRow) {
        BoardRow row;
        row.key = view.rows.size() + 1;
        row.text = names.mid(static_cast<qsizetype>(at), kNamesInRow).join(QStringLiteral(" \u00b7 "));
        view.rows.push_back(row);
    }
    if (m_people && m_people->more > 0) {
        BoardRow row;
        row.key = view.rows.size() + 1;
        row.text = tr("and %1 more").arg(m_people->more);
        view.rows.push_back(row);
    }
    return view;
}

QImage JoinModel::pictureFor(const wire::PictureAbout& about) const
{
    const QImage small = m_smallOf ? m_smallOf(about.hash) : QImage();
    return small.isNull() ? placeOf(about) : small;
}

std::optional<pictures::Looked> JoinModel::pictureAt(std::uint64_t key) const
{
    const BoardLine* line = m_words.line(key);
    if (!line || !line->picture || line->stand == Stand::takenBack)
        return std::nullopt;
    pictures::Looked looked;
    looked.key = key;
    looked.hash = line->picture->hash;
    looked.name = line->name;
    looked.caption = line->text;
    if (line->isMine())
        looked.state = tr("Your picture: %1.").arg(standWords(*line, m_line == link::LineState::in));
    looked.own = line->isMine();
    looked.mayTakeBack =
        line->stand == Stand::toRead || line->stand == Stand::withLeader || line->stand == Stand::onBoard;
    return looked;
}

AnswerView JoinModel::answerView() const
{
    const BoardLine& answer = *m_words.answer();
    AnswerView view;
    view.heading = answer.name.isEmpty() ? tr("A helper answers you") : tr("%1 answers you").arg(answer.name);
    view.about = answer.about.isEmpty() ? QString() : tr("You wrote: %1").arg(glanceAt(answer.about));
    view.text = answer.text;
    view.putAway = tr("Put it away");
    if (!m_words.restsUntil())
        view.writeBack = tr("Write something more");
    return view;
}

} // namespace vh::join
