#include "app/lead/lead_model.h"

#include "app/lead/lead_words.h"
#include "app/people/ago.h"
#include "common/wire/join_link.h"

#include <QCoreApplication>

namespace vh::lead
{

namespace
{

constexpr Millis kSaidFor{8'000};
constexpr Millis kEndArmedFor{8'000};

QString words(const char* text)
{
    return QCoreApplication::translate("vh::lead::LeadModel", text);
}

} // namespace

std::optional<wire::Reassert> LeadModel::take(const wire::ToClient& message, Instant now)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message))
        return takeWelcome(*welcome);
    if (m_calls.take(message))
        return {};
    if (const auto* open = std::get_if<wire::ClassOpen>(&message))
        openNow(*open);
    else if (const auto* place = std::get_if<wire::PlaceNow>(&message))
        placeNow(*place);
    else if (const auto* lease = std::get_if<wire::LeaseNow>(&message))
        m_leaseNow = *lease, noteVoice();
    else if (const auto* here = std::get_if<wire::Here>(&message))
        m_here = here->here, m_helpers = here->helpers, m_hall.setHere(here->here);
    else if (const auto* seats = std::get_if<wire::Seats>(&message))
        m_hall.take(*seats, now);
    else if (const auto* worth = std::get_if<wire::WorthNow>(&message))
        m_hall.take(*worth);
    else if (const auto* door = std::get_if<wire::Door>(&message))
        m_door = *door;
    else if (const auto* desk = std::get_if<wire::OnDesk>(&message))
        m_desk.take(*desk);
    else if (const auto* set = std::get_if<wire::DeskNow>(&message))
        m_desk.take(*set);
    else if (const auto* acts = std::get_if<wire::Acts>(&message))
        m_desk.take(*acts);
    else if (const auto* whom = std::get_if<wire::WhomToRing>(&message))
        m_whomToRing = QString::fromStdString(whom->text);
    else if (const auto* speaking = std::get_if<wire::Speaking>(&message))
        m_hall.guest().take(*speaking);
    else if (const auto* over = std::get_if<wire::InviteOver>(&message))
        say(m_hall.guest().take(*over), now);
    else if (const auto* summary = std::get_if<wire::Summary>(&message))
        m_summary = *summary;
    return {};
}

std::optional<wire::Reassert> LeadModel::takeWelcome(const wire::Welcome& welcome)
{
    m_role = welcome.role;
    m_person = welcome.person;
    m_name = welcome.name;
    m_groupName = QString::fromStdString(welcome.groupName);
    m_way.code = welcome.code.empty() ? QString() : QString::fromStdString(wire::spacedCode(welcome.code));
    m_here = welcome.here;
    m_helpers = welcome.helpers;
    m_hall.setHere(welcome.here);
    m_hall.setOwn(welcome.person);
    m_hall.guest().welcome(welcome);
    m_calls.setOwn(welcome.person);
    m_calls.clear();
    m_whomToRing = QString::fromStdString(welcome.whomToRing);
    m_pressed.reset(); // asked again under its own id, if it was not answered
    m_moreWaiting = 0;
    if (!welcome.open || !welcome.place) {
        m_open.reset();
        m_place.reset();
        m_leaseNow.reset();
        return {};
    }
    const bool sameClass = m_open && m_open->classId == welcome.open->classId;
    openNow(*welcome.open);
    std::optional<wire::Reassert> reassert;
    if (sameClass && holdsPlace() && welcome.place->serial < m_place->serial)
        reassert = wire::Reassert{{}, m_place->lease, m_place->serial, m_place->place, m_place->leftOut};
    placeNow(*welcome.place);
    return reassert;
}

void LeadModel::openNow(const wire::ClassOpen& open)
{
    const bool corrected = m_open && m_open->classId == open.classId;
    m_open = open;
    if (corrected)
        return;
    m_script.reset();
    m_place.reset();
    m_leaseNow.reset();
    m_startedAt.reset();
    m_summary.reset();
    m_hall.beginClass();
    m_voice.rest();
    m_said.clear();
}

void LeadModel::placeNow(const wire::PlaceNow& place)
{
    m_startedAt = place.startedAt;
    if (!m_place || m_place->serial != place.serial)
        m_pressed.reset();
    if (place.phase != Phase::notStarted)
        m_hall.startClass();
    m_place = place;
    noteSection();
    noteVoice();
}

void LeadModel::setScript(std::shared_ptr<const ClassScript> script)
{
    m_script = std::move(script);
    noteSection();
}

void LeadModel::noteSection()
{
    const auto at = m_script && m_place ? turnAt(*m_script, m_place->place) : std::nullopt;
    m_hall.setSection(at ? std::optional(at->section->kind) : std::nullopt, at ? m_place->place.section : -1);
}

/// What the place says of her voice: open from the start of the class on, at rest where somebody else leads.
void LeadModel::noteVoice()
{
    if (m_leaseNow && !m_leaseNow->mine)
        m_voice.rest();
    else if (holdsPlace() && stage() == Stage::inClass)
        m_voice.classBegins();
    m_hall.setMayInvite(holdsPlace() && m_voice.way() == VoiceWay::voicehall);
}

void LeadModel::choose(VoiceWay way)
{
    m_voice.choose(way);
    if (way == VoiceWay::elsewhere)
        m_hall.guest().forget(); // the hall ends it too: people speak in that call
    noteVoice();
}

bool LeadModel::isYours() const
{
    const auto at = m_script && m_place ? turnAt(*m_script, m_place->place) : std::nullopt;
    return at && m_place->phase == Phase::running && at->turn->kind == TurnKind::yours;
}

VoiceView LeadModel::voiceView() const
{
    VoiceView view;
    view.way = m_voice.way();
    view.mouth = m_voice.mouth();
    view.offered = holdsPlace() && m_voice.way() == VoiceWay::voicehall;
    view.mayRing = view.offered && m_voice.isOpen() && !isYours();
    view.recording = m_recording;
    view.plays = m_plays;
    return view;
}

void LeadModel::setLine(LineNow line, const QString& ending)
{
    m_line = line;
    m_ending = ending;
}

void LeadModel::setInvite(Role role, const QString& link)
{
    if (role == Role::moderator)
        m_way.helperLink = link;
    else if (role == Role::standIn)
        m_way.standInLink = link;
    else if (role == Role::leader)
        m_way.leaderLink = link;
}

void LeadModel::say(const QString& line, Instant now)
{
    m_said = line;
    m_saidAt = now;
}

bool LeadModel::pressEnd(Instant now)
{
    if (m_endArmedAt && now - *m_endArmedAt < kEndArmedFor) {
        m_endArmedAt.reset();
        return true;
    }
    m_endArmedAt = now;
    return false;
}

void LeadModel::leaveSummary()
{
    m_summary.reset();
    m_open.reset();
    m_place.reset();
    m_leaseNow.reset();
    m_script.reset();
}

bool LeadModel::holdsPlace() const
{
    return m_place && m_leaseNow && m_leaseNow->mine;
}

std::optional<wire::Lead> LeadModel::press(CommandKind command, Instant now)
{
    if (!m_place || m_place->phase == Phase::ended)
        return {};
    if ((m_place->phase == Phase::notStarted) != (command == CommandKind::start) && command != CommandKind::end)
        return {};
    if (m_line != LineNow::up) {
        say(words("Your line is lost just now, so this press did not go out."), now);
        return {};
    }
    if (!holdsPlace()) {
        say(words("%1 leads now, so your press did not count.").arg(holder()), now);
        return {};
    }
    if (m_pressed && m_pressed->command == command && m_pressed->serial == m_place->serial)
        return {}; // the same press twice, before the first one was answered
    m_pressed = Pressed{command, m_place->serial};
    ++m_presses;
    return wire::Lead{{}, command, m_place->lease, m_place->serial};
}

void LeadModel::pressAnswered(unsigned number, const Error* error, Instant now)
{
    if (number == m_presses) // else another has gone out since, and is still under way
        m_pressed.reset();
    if (error) {
        m_moreWaiting = 0;
        say(refusalWords(*error), now);
    }
}

Stage LeadModel::stage() const
{
    if (m_summary || (m_place && m_place->phase == Phase::ended))
        return Stage::over;
    if (m_place)
        return m_place->phase == Phase::notStarted ? Stage::ready : Stage::inClass;
    return m_role == Role::leader && m_line != LineNow::connecting ? Stage::choosing : Stage::waiting;
}

Hold LeadModel::hold() const
{
    if (holdsPlace())
        return Hold::mine;
    return m_leaseNow && m_leaseNow->silent ? Hold::anotherSilent : Hold::another;
}

QString LeadModel::holder() const
{
    const std::string name = m_leaseNow ? m_leaseNow->holderName : m_place ? m_place->leaderName : std::string();
    return name.empty() ? words("Somebody else") : QString::fromStdString(name);
}

NoticeLine::State LeadModel::notice(Instant now) const
{
    using Tone = NoticeLine::Tone;
    if (m_line == LineNow::ended)
        return {m_ending, Tone::heed};
    if (m_line == LineNow::lost)
        return {stage() == Stage::inClass
                    ? words("Your line is lost; it is being tried again. The homes go on by the clock for now.")
                    : words("Your line is lost; it is being tried again."),
                Tone::heed};
    if (m_line == LineNow::connecting)
        return {words("On the way to your group\u2026"), Tone::calm};
    const bool inClass = stage() == Stage::inClass || stage() == Stage::ready;
    if (inClass && hold() == Hold::anotherSilent)
        return {words("%1's line is lost. You can take the place: press T.").arg(holder()), Tone::heed};
    if (!m_said.isEmpty() && now - m_saidAt < kSaidFor)
        return {m_said, Tone::heed};
    if (inClass && hold() == Hold::another && m_leaseNow)
        return {m_role == Role::leader ? words("%1 leads now. To take the place back, press T.").arg(holder())
                                       : words("%1 leads; you follow.").arg(holder()),
                Tone::calm};
    if (m_place && m_place->phase == Phase::calmPause)
        return {words("A calm pause, because the leader's line was lost. Resume when you are ready."), Tone::heed};
    return {};
}

DoorList::State LeadModel::door(Instant now) const
{
    DoorList::State state;
    for (const wire::Waiting& waiting : m_door.waiting) {
        const QString ago = agoWords(now - waiting.since);
        const QString device = QString::fromStdString(waiting.device);
        state.rows.push_back({waiting.door, QString::fromStdString(waiting.name),
                              device.isEmpty() ? ago : QStringLiteral("%1, %2").arg(device, ago)});
    }
    QStringList fourWords;
    for (const std::string& word : m_door.words)
        fourWords << QString::fromStdString(word);
    state.words = fourWords.join(QLatin1Char(' '));
    return state;
}

LeadView LeadModel::view(Instant now, const ChoiceView& choice,
                         const std::function<QImage(const std::string&)>& pictureOf) const
{
    LeadView view;
    view.stage = stage();
    view.role = m_role;
    view.groupName = m_groupName;
    view.title = m_open ? QString::fromStdString(m_open->title) : QString();
    view.notice = notice(now);
    view.choice = choice;
    view.way = m_way;
    view.here = hereWords(m_here, m_helpers);
    view.hold = hold();
    view.holder = holder();
    view.mayTake = m_line == LineNow::up && m_leaseNow && view.hold != Hold::mine &&
                   (m_role == Role::leader || view.hold == Hold::anotherSilent);
    view.waits = m_place && (m_place->phase == Phase::waiting || m_place->phase == Phase::calmPause);
    view.endArmed = m_endArmedAt && now - *m_endArmedAt < kEndArmedFor;
    view.level = m_level;
    view.voice = voiceView();
    view.groupWindowShown = m_groupWindow.shown;
    view.groupWindowFills = m_groupWindow.fills;
    view.otherDisplay = m_groupWindow.otherDisplay;
    view.soundCheck = m_soundCheck;
    view.changes = changes();
    showPeople(view, now);
    if (m_script && m_place) {
        view.clock = clock(now);
        view.rail = rail(now);
        view.group = group(pictureOf);
        if (const auto at = turnAt(*m_script, m_place->place))
            view.column = column(*at, now);
    }
    if (view.stage == Stage::over)
        view.summary = summary();
    if (view.filled && view.stage == Stage::inClass) // whoever leads on goes by this
        view.filled->meanwhile = words("The class is at: %1").arg(QString::fromStdString(view.column.now.text));
    return view;
}

void LeadModel::showPeople(LeadView& view, Instant now) const
{
    view.calls = m_calls.state(now);
    view.filled = m_calls.filled(now);
    if (m_helpers == 0) // else it is theirs
        view.lostLines = m_calls.lost(now);
    view.whomToRing = m_whomToRing;
    if (m_role != Role::leader)
        return;
    QStringList titles;
    if (m_script)
        for (const Section& section : m_script->sections)
            titles << QString::fromStdString(section.title);
    view.hall = m_hall.state(titles);
    view.door = door(now);
    view.desk = m_desk.view(m_open && m_place && m_place->phase != Phase::ended);
    if (!view.hall.covered)
        return;
    // Whoever looks over her shoulder, or at a window shown by mistake, reads no name and no code.
    QStringList waits;
    if (!view.calls.rows.empty())
        waits << words("Somebody needs help.");
    if (m_desk.waitsForClinician())
        waits << words("Something needs a clinician.");
    if (!view.door.rows.empty())
        waits << words("Somebody is at the door.");
    if (!view.hall.guest.words.isEmpty())
        waits << (view.hall.guest.heard ? words("Somebody is heard by all; V ends it.")
                                        : words("Somebody is asked to be heard by all; V takes it back."));
    view.coverWords = waits.join(QLatin1Char(' '));
    view.calls = {};
    view.lostLines = {};
    if (view.filled)
        view.filled = CallScreen::State{view.filled->call,
                                        words("Somebody needs help"),
                                        words("The hall is covered. Press C to see who it is."),
                                        {},
                                        {},
                                        {},
                                        {}};
    view.door = {};
    view.way = {};
}

} // namespace vh::lead
