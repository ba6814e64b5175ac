// What the class screen shows: where the class is, the meter, and the one line of what is going on.
#include "app/join/join_model.h"

#include <QCoreApplication>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::JoinModel", source);
}

ScriptRail::State railOf(const ClassScript& script, const Place& place)
{
    ScriptRail::State rail;
    rail.current = place.section;
    for (const Section& section : script.sections) {
        Millis planned{0};
        for (const vh::Step& step : section.steps)
            for (const Round& round : step.rounds)
                for (const Turn& turn : round.turns)
                    planned += turn.planned;
        rail.parts.push_back({QString::fromStdString(section.title), planned, section.kind == SectionKind::pause});
    }
    rail.done = plannedLength(script) - plannedFrom(script, place);
    return rail;
}

/// What was written, as much as one look takes in.
QString glanceAt(const QString& line)
{
    constexpr qsizetype kGlance = 100;
    return line.size() <= kGlance ? line : line.left(kGlance - 1).trimmed() + QChar(0x2026);
}

QString leaderOf(const link::ClassFollow* follow)
{
    const QString name = follow && follow->place() ? QString::fromStdString(follow->place()->leaderName) : QString();
    return name.isEmpty() ? tr("The leader") : name;
}

} // namespace

std::optional<NoticeLine::State> JoinModel::helpNotice() const
{
    using Tone = NoticeLine::Tone;
    const bool lineUp = m_line == link::LineState::in;
    if (m_calling && !lineUp)
        return NoticeLine::State{tr("The line is lost. Your call goes out as soon as it is back. If it cannot wait, "
                                    "please telephone."),
                                 Tone::heed};
    if (!lineUp || (!m_call && !m_calling))
        return std::nullopt;
    const QString who = m_call ? QString::fromStdString(m_call->takenBy) : QString();
    if (!who.isEmpty())
        return NoticeLine::State{tr("%1 has your call. This does not call emergency services.").arg(who), Tone::heed};
    return NoticeLine::State{tr("Your call has gone out. This does not call emergency services."), Tone::heed};
}

NoticeLine::State JoinModel::noticeNow(const link::ClassFollow* follow) const
{
    using Tone = NoticeLine::Tone;
    if (const auto help = helpNotice())
        return *help;
    if (m_line != link::LineState::in)
        return {tr("The line is lost. Voicehall is coming back by itself. There is nothing you need to do."),
                Tone::heed};
    if (!isResting() && (m_ears == sound::EarsState::deviceLost || m_ears == sound::EarsState::noDevice))
        return {sound::wordsOf(m_ears), Tone::heed};
    if (!m_said.isEmpty())
        return {glanceAt(m_said), Tone::calm};
    switch (follow && follow->place() ? follow->place()->line : HomeLine::classNotStarted) {
    case HomeLine::leaderAway:
        return {tr("%1's line is lost. Please wait a moment; the class goes on.").arg(leaderOf(follow)), Tone::heed};
    case HomeLine::calmPause:
        return {tr("We pause until somebody can lead again. There is nothing to do. Rest your voice."), Tone::calm};
    case HomeLine::standInLeads:
        return {tr("%1 leads now.").arg(leaderOf(follow)), Tone::calm};
    case HomeLine::classWaits:
        return {tr("%1 is waiting a moment.").arg(leaderOf(follow)), Tone::calm};
    case HomeLine::classNotStarted:
        return {m_board.isEmpty() ? shortCaution() : glanceAt(m_board.last()), Tone::calm};
    case HomeLine::classRuns:
    case HomeLine::ended:
        break;
    }
    if (!m_board.isEmpty())
        return {glanceAt(m_board.last()), Tone::calm};
    if (isResting())
        return {tr("You are listening today. Your microphone is off."), Tone::calm};
    if (m_voice == wire::VoiceToday::sore)
        return {tr("Take it gently today. Stop if it hurts."), Tone::calm};
    return {};
}

ClassView JoinModel::classView(const link::ClassFollow* follow) const
{
    ClassView view;
    view.board = m_board;
    view.notice = noticeNow(follow);
    const std::uint32_t others = m_here > 0 ? m_here - 1 : 0;
    view.others = others == 1 ? tr("1 other is here") : tr("%1 others are here").arg(others);
    view.helpWords = m_helpers == 0   ? tr("No helper is here now; a call reaches the leader")
                     : m_helpers == 1 ? tr("One helper is here")
                                      : tr("%1 helpers are here").arg(m_helpers);
    view.isPrivate = m_agreements.levelVisible == LevelVisible::nobody;
    view.sharing = view.isPrivate ? tr("Only you see your level") : tr("The leader can see your level");
    if (m_agreements.levelVisible == LevelVisible::leaderAndHelpers)
        view.sharing = tr("The leader and the helpers can see your level");
    if (isResting())
        view.sharing = tr("Your microphone is off");
    view.title = follow && follow->open() ? QString::fromStdString(follow->open()->title)
                                          : QString::fromStdString(m_welcome ? m_welcome->groupName : "");

    const auto at = follow ? follow->turn() : std::nullopt;
    if (!at || follow->place()->phase == Phase::notStarted) {
        view.sheet.text.text = tr("The class will begin soon.").toStdString();
        view.sheet.cue.words = tr("Welcome");
        view.showMeter = false;
        return view;
    }
    if (const auto& leader = follow->place()->leaderName; !leader.empty())
        view.others += " · " + tr("%1 leads").arg(QString::fromStdString(leader));
    view.rail = railOf(*follow->script(), follow->place()->place);
    describeTurn(view, *follow, *at);
    return view;
}

void JoinModel::describeTurn(ClassView& view, const link::ClassFollow& follow, const TurnAt& at) const
{
    view.showMeter = !isResting();
    if (at.section->kind == SectionKind::pause) { // asks nothing: a word and a picture, whatever the script says
        view.sheet.cue.words = tr("Water pause");
        view.calm = true;
        view.showMeter = false;
        return;
    }
    view.sheet.text.text = at.step->text;
    view.sheet.text.stretches = at.step->stretches;
    view.sheet.cue.turn = at.turn->kind;
    view.sheet.cue.moreVoice = at.round->moreVoice;
    if (follow.place()->phase == Phase::calmPause) {
        view.sheet.cue = {std::nullopt, false, tr("A pause")};
        view.showMeter = false;
    }
    if (at.step->picture && at.step->picture->file == m_pictureFile) {
        view.sheet.picture = m_picture;
        view.sheet.pictureDescription = QString::fromStdString(at.step->picture->description);
    }
    const HomeMeter::View meter = m_meter.view();
    view.meter.standing = meter.standing;
    view.meter.reason = meter.reason;
    view.meter.band = meter.band;
    view.meter.overUsualDb = meter.nowOverUsualDb;
    if (meter.listening && meter.heard && at.turn->kind == TurnKind::withMe)
        view.meter.words = tr("I hear you");
}

} // namespace vh::join
