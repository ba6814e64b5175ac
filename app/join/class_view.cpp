// What the class screen shows: where the class is, the meter, and what is going on.
#include "app/join/advice.h"
#include "app/join/join_model.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::JoinModel", source);
}

ScriptRail::State railOf(const ClassScript& script, const Place& place, const LeftOut& leftOut)
{
    ScriptRail::State rail;
    rail.current = place.section;
    for (std::size_t i = 0; i < script.sections.size(); ++i) {
        const Section& section = script.sections[i];
        rail.parts.push_back({QString::fromStdString(section.title), plannedLengthOf(script, i, leftOut),
                              section.kind == SectionKind::pause});
    }
    rail.done = plannedLength(script, leftOut) - plannedFrom(script, place, leftOut);
    return rail;
}

constexpr qsizetype kNameGlance = 20;

QString cut(const QString& words, qsizetype most)
{
    return words.size() <= most ? words : words.left(most - 1).trimmed() + QChar(0x2026);
}

/// What was written, as much as one look takes in.
QString glanceAt(const QString& line)
{
    constexpr qsizetype kGlance = 100;
    return cut(line.simplified(), kGlance);
}

/// Whose line it is, where that is to be seen.
QString nameOf(const BoardLine& line)
{
    return line.kind == BoardLine::Kind::notice ? tr("From the desk") : line.name;
}

/// Whether the participants speak in it; else there is nothing to measure, and the text has the room.
bool isSaid(const vh::Step& step)
{
    return std::any_of(step.rounds.begin(), step.rounds.end(), [](const Round& round) {
        return std::any_of(round.turns.begin(), round.turns.end(), [](const Turn& turn) {
            return turn.kind == TurnKind::withMe || turn.kind == TurnKind::yours;
        });
    });
}

/// How many have said hello, oneself among them.
QString helloWords(std::uint32_t all, bool mine)
{
    const std::uint32_t others = mine && all > 0 ? all - 1 : all;
    if (mine)
        return others == 0   ? tr("you have said hello")
               : others == 1 ? tr("you and 1 other have said hello")
                             : tr("you and %1 others have said hello").arg(others);
    return others == 0   ? QString()
           : others == 1 ? tr("1 person has said hello")
                         : tr("%1 people have said hello").arg(others);
}

/// Who sees the level: how it is, beside the control that changes it.
QStringList sharingWords(LevelVisible visible, bool resting)
{
    if (resting)
        return {tr("Your microphone\nis off"), tr("Listening\nonly")};
    switch (visible) {
    case LevelVisible::nobody:
        return {tr("Only you see\nyour level"), tr("Only you\nsee it")};
    case LevelVisible::leader:
        return {tr("The leader sees\nyour level"), tr("The leader\nsees it"), tr("Leader\nsees it")};
    case LevelVisible::leaderAndHelpers:
        return {tr("Leader and helpers\nsee your level"), tr("Leader and\nhelpers see it"), tr("Helpers\nsee it too")};
    }
    return {};
}

QString leaderOf(const link::ClassFollow* follow)
{
    const QString name = follow && follow->place() ? QString::fromStdString(follow->place()->leaderName) : QString();
    return name.isEmpty() ? tr("The leader") : name;
}

} // namespace

std::optional<NoticeLine::State> JoinModel::placeNotice(const link::ClassFollow* follow) const
{
    using Tone = NoticeLine::Tone;
    switch (follow && follow->place() ? follow->place()->line : HomeLine::classNotStarted) {
    case HomeLine::leaderAway:
        return NoticeLine::State{
            tr("%1's line is lost. Please wait a moment; the class goes on.").arg(leaderOf(follow)), Tone::heed};
    case HomeLine::calmPause:
        return NoticeLine::State{tr("We pause until somebody can lead again. There is nothing to do. Rest your voice."),
                                 Tone::calm};
    case HomeLine::standInLeads:
        return NoticeLine::State{tr("%1 leads now.").arg(leaderOf(follow)), Tone::calm};
    case HomeLine::classWaits:
        return NoticeLine::State{tr("%1 is waiting a moment.").arg(leaderOf(follow)), Tone::calm};
    case HomeLine::classNotStarted:
    case HomeLine::classRuns:
    case HomeLine::ended:
        break;
    }
    return std::nullopt;
}

/// The class has not begun: whoever is early has time for the handout.
bool JoinModel::isBefore(const link::ClassFollow* follow)
{
    return !follow || !follow->open() || !follow->place() || follow->place()->phase == Phase::notStarted;
}

/// Why the last turn could not be judged, where there is a meter to say so.
Blank JoinModel::adviceFor(const link::ClassFollow* follow) const
{
    const auto at = follow ? follow->turn() : std::nullopt;
    const HomeMeter::View meter = m_meter.view();
    const bool shown = at && at->section->kind != SectionKind::pause && !isResting();
    return shown && meter.standing == Standing::cantTell ? meter.reason : Blank::none;
}

/// Everything there is to say, what matters most first.
std::vector<NoticeLine::State> JoinModel::notices(const link::ClassFollow* follow) const
{
    using Tone = NoticeLine::Tone;
    std::vector<NoticeLine::State> all;
    const auto say = [&](const QString& words, Tone tone) {
        if (!words.isEmpty())
            all.push_back({words, tone});
    };
    const bool lineUp = m_line == link::LineState::in;
    say(m_call.notice(lineUp), Tone::heed);
    if (!lineUp && !m_call.waits(lineUp))
        say(tr("The line is lost. Voicehall is coming back by itself. There is nothing you need to do."), Tone::heed);
    if (!isResting() && (m_ears == sound::EarsState::deviceLost || m_ears == sound::EarsState::noDevice))
        say(sound::wordsOf(m_ears), Tone::heed);
    if (lineUp)
        say(m_voices.advice(), Tone::heed);
    say(m_word, Tone::calm);
    if (const BoardLine* answer = m_words.answer()) {
        const QString who = answer->name.isEmpty() ? tr("A helper") : cut(answer->name, kNameGlance);
        say(m_reads == Reads::wished ? tr("%1's answer comes after your turn.").arg(who)
                                     : tr("%1 has answered you.").arg(who),
            Tone::calm);
    }
    if (m_words.said().heed || !m_words.boardRests())
        say(m_words.said().words, m_words.said().heed ? Tone::heed : Tone::calm);
    const auto place = lineUp ? placeNotice(follow) : std::nullopt;
    if (place && place->tone == Tone::heed)
        all.push_back(*place);
    say(glanceAt(m_said), Tone::calm);
    if (place && place->tone == Tone::calm)
        all.push_back(*place);
    if (isBefore(follow))
        say(m_handout.words(), Tone::calm);
    say(adviceOn(adviceFor(follow)), Tone::heed);
    if (lineUp)
        say(m_call.nobodyHere(), Tone::calm);
    if (const BoardLine* latest = m_words.latest())
        say(glanceAt(nameOf(*latest).isEmpty() ? latest->text : nameOf(*latest) + ": " + latest->text), Tone::calm);
    else if (isResting())
        say(tr("You are listening today. Your microphone is off."), Tone::calm);
    else if (m_voice == wire::VoiceToday::sore)
        say(tr("Take it gently today. Stop if it hurts."), Tone::calm);
    return all;
}

void JoinModel::describeNotices(ClassView& view, const link::ClassFollow* follow) const
{
    const auto all = notices(follow);
    if (!all.empty())
        view.notice = all[0];
    if (all.size() > 1)
        view.alsoNotice = all[1];
    if (m_call.isOut())
        view.action = NoticeAction::takeBackCall;
    else if (adviceFor(follow) == Blank::setupChanged)
        view.action = NoticeAction::checkMicrophone;
    else if (m_words.answer())
        view.action = NoticeAction::readAnswer;
    else if (isBefore(follow) && !m_handout.button().isEmpty())
        view.action = NoticeAction::handout;
    view.handout = m_handout.button();
    view.calmWords = view.calm ? pauseCaution() : shortCaution();
}

void JoinModel::describePeople(ClassView& view, const link::ClassFollow* follow) const
{
    view.others = othersWords();
    view.boardWords = boardWords();
    QStringList beside;
    if (follow && follow->place() && !follow->place()->leaderName.empty())
        beside.append(tr("%1 leads").arg(cut(QString::fromStdString(follow->place()->leaderName), kNameGlance)));
    if (const QString hellos = helloWords(m_hellos, m_saidHello); !hellos.isEmpty())
        beside.append(hellos);
    view.leads = beside.join(QStringLiteral(" \u00b7 "));
    view.voice = m_voices.line();
    view.saidHello = m_saidHello;
    view.helpWords = m_call.captions();
    view.isPrivate = m_agreements.levelVisible == LevelVisible::nobody;
    view.sharing = sharingWords(m_agreements.levelVisible, isResting());
}

ClassView JoinModel::classView(const link::ClassFollow* follow) const
{
    ClassView view;
    describePeople(view, follow);
    view.title = follow && follow->open() ? QString::fromStdString(follow->open()->title)
                                          : QString::fromStdString(m_welcome ? m_welcome->groupName : "");
    const auto at = follow ? follow->turn() : std::nullopt;
    if (!at || isBefore(follow)) {
        view.sheet.text.text = tr("The class will begin soon.").toStdString();
        view.sheet.cue.words = tr("Welcome");
        view.showMeter = false;
    } else {
        view.rail = railOf(*follow->script(), follow->place()->place, follow->place()->leftOut);
        describeTurn(view, *follow, *at);
    }
    describeNotices(view, follow);
    describePicture(view, follow);
    return view;
}

/// Whose turn it is, as far as it has been heard: the text may be ahead of it.
CueBadge::State JoinModel::cue(const TurnAt& shown, const wire::PlaceNow& place) const
{
    if (place.phase == Phase::calmPause)
        return {std::nullopt, false, tr("A pause")};
    const auto at = cuedTurn();
    const TurnAt& turn = at && m_cue.cue()->classId == place.classId ? *at : shown;
    if (turn.section->kind == SectionKind::pause)
        return {std::nullopt, false, tr("Water pause")};
    return {turn.turn->kind, turn.round->moreVoice, {}};
}

/// While the leader shows the next one, what is said of a voice is of the turn before; to somebody whom everybody hears
/// it would read as being about that, so nothing is said.
void JoinModel::describeMeter(ClassView& view) const
{
    const HomeMeter::View meter = m_meter.view();
    const auto turn = view.sheet.cue.turn;
    const bool over = turn == TurnKind::listen || turn == TurnKind::ready;
    view.meter.of = over ? VoiceMeter::Of::lastTurn : VoiceMeter::Of::thisTurn;
    view.meter.band = meter.band;
    view.meter.overUsualDb = meter.nowOverUsualDb;
    if (over && m_voices.isHeard())
        return;
    view.meter.standing = meter.standing;
    view.meter.reason = meter.reason;
    if (meter.listening && meter.heard && turn == TurnKind::withMe)
        view.meter.words = tr("I hear you");
}

void JoinModel::describeTurn(ClassView& view, const link::ClassFollow& follow, const TurnAt& at) const
{
    view.showMeter = !isResting() && isSaid(*at.step);
    if (at.section->kind == SectionKind::pause) { // asks nothing: a word and a picture, whatever the script says
        view.sheet.cue.words = tr("Water pause");
        view.calm = true;
        view.showMeter = false;
        return;
    }
    view.sheet.text.text = at.step->text;
    view.sheet.text.stretches = at.step->stretches;
    view.sheet.text.limits = kHomeText;
    view.sheet.cue = cue(at, *follow.place());
    if (at.step->picture && at.step->picture->file == m_pictureFile) {
        view.sheet.picture = m_picture;
        view.sheet.pictureDescription = QString::fromStdString(at.step->picture->description);
    }
    describeMeter(view);
}

} // namespace vh::join
