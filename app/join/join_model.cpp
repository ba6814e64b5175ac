#include "app/join/join_model.h"

#include <QCoreApplication>

#include <algorithm>
#include <utility>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::JoinModel", source);
}

constexpr qsizetype kNameGlance = 24; ///< of a long name
constexpr Millis kWordStays{20'000};  ///< long enough to be read twice by a slow reader

QString shortName(const std::string& name)
{
    const QString whole = QString::fromStdString(name);
    return whole.size() <= kNameGlance ? whole : whole.left(kNameGlance - 1).trimmed() + QChar(0x2026);
}

} // namespace

// --- what happens --------------------------------------------------------------------------------------------------

void JoinModel::startAtEntry(const QString& address, const QString& code, const QString& name, const QString& wrong)
{
    m_screen = Screen::entry;
    m_entry = {};
    m_entry.heading = tr("Join a class");
    m_entry.words = tr("Your group gave you a link, or an address and a code.");
    m_entry.fields = {{tr("Link or address"), address, tr("for example hall.example.org"), 500},
                      {tr("Code"), code, tr("six signs; with a link, leave this empty"), 16},
                      {tr("Your name, as the group knows you"), name, {}, static_cast<int>(wire::kNameLength)}};
    m_entry.choices = {{tr("Come in"), false}};
    m_entry.notice = wrong;
    m_entry.canGoBack = true;
}

void JoinModel::connecting(const QString& to)
{
    m_screen = Screen::connecting;
    m_waitWords = to;
}

void JoinModel::lineIs(link::LineState state, const QString& words)
{
    m_line = state;
    m_lineWords = words;
    if (state != link::LineState::in) {
        m_voices.lineIsLost();
        m_cue.setStream(std::nullopt);
    }
    if (state == link::LineState::atDoor)
        m_screen = Screen::door;
    if (state != link::LineState::ended)
        return;
    m_screen = Screen::over;
    if (!m_welcome && !m_entry.fields.empty()) { // to the question again, with what was typed
        m_entry.notice = words;
        m_screen = Screen::entry;
    }
}

void JoinModel::welcome(const wire::Welcome& welcome, bool knowsMicrophone)
{
    const bool first = !m_welcome;
    m_welcome = welcome;
    m_here = welcome.here;
    m_hellos = welcome.hellos;
    m_helloHeard = welcome.saidHello;
    if (first)
        m_saidHello = welcome.saidHello;
    if (first) // later ones may be older than what was answered meanwhile, and is on its way up
        for (const wire::AgreementValue& each : welcome.agreements)
            setAgreement(each.kind, each.value);
    m_call.welcome(welcome);
    m_words.welcome(welcome);
    m_voices.welcome(welcome);
    m_cue.setStream(m_voices.leadersStream());
    if (!first)
        return; // back after a lost line: the screen stays what it was
    m_knowsMicrophone = knowsMicrophone;
    m_question = 0;
    m_trail.clear();
    m_way = Way::joining;
    m_screen = Screen::agreements;
    nextQuestion();
}

void JoinModel::take(const wire::ToClient& message)
{
    if (m_call.take(message) || takeWords(message))
        return;
    if (const auto* here = std::get_if<wire::Here>(&message)) {
        m_here = here->here;
        m_hellos = here->hellos;
    } else if (const auto* word = std::get_if<wire::WordHeard>(&message)) {
        hearWord(*word);
    } else if (const auto* open = std::get_if<wire::ClassOpen>(&message)) {
        if (!m_welcome || !m_welcome->open || m_welcome->open->classId != open->classId)
            m_saidHello = m_helloHeard = false; // each class begins without
        if (m_welcome)
            m_welcome->open = *open;
    } else if (const auto* voice = std::get_if<wire::VoiceNow>(&message)) {
        m_voices.voiceIs(*voice);
        m_cue.setStream(m_voices.leadersStream());
    } else if (const auto* speaking = std::get_if<wire::Speaking>(&message)) {
        m_voices.speakingIs(*speaking);
    } else if (const auto* invited = std::get_if<wire::InvitedToSpeak>(&message)) {
        m_voices.invitedIs(*invited);
    } else if (const auto* band = std::get_if<wire::Band>(&message); band && m_welcome) {
        m_welcome->bandOffsetDb = band->offsetDb;
    }
}

Wishes JoinModel::callHasGoneOut(std::uint64_t call)
{
    const auto back = m_call.hasGoneOut(call);
    return back ? Wishes{{.kind = Wish::Kind::takeBackCall, .call = *back}} : Wishes{};
}

std::optional<bool> JoinModel::helloToSay() const
{
    return m_saidHello == m_helloHeard ? std::nullopt : std::optional(m_saidHello);
}

void JoinModel::hearWord(const wire::WordHeard& word)
{
    m_word = word.from.empty()
                 ? tr("To you alone: %1").arg(QString::fromStdString(word.text))
                 : tr("%1, to you alone: %2").arg(shortName(word.from), QString::fromStdString(word.text));
    m_wordSince.reset();
}

void JoinModel::tick(Instant now)
{
    m_check.setNow(now);
    if (m_word.isEmpty())
        return;
    if (!m_wordSince)
        m_wordSince = now;
    if (now - *m_wordSince >= kWordStays)
        m_word.clear();
}

void JoinModel::refused(Wish::Kind what)
{
    if (what == Wish::Kind::callHelp) {
        m_call.didNotGoOut();
        m_said = tr("Your call for help did not go out. Please press again, or telephone.");
        if (m_screen == Screen::calling)
            toClass();
    }
}

void JoinModel::devicesAre(const QStringList& names, int chosen)
{
    m_devices = names;
    m_device = chosen;
}

bool JoinModel::isInside() const
{
    return m_screen == Screen::inClass || m_screen == Screen::writing || m_screen == Screen::people ||
           m_screen == Screen::leaving || m_screen == Screen::choices || m_screen == Screen::calling ||
           (m_way == Way::reviewing &&
            (m_screen == Screen::contact || m_screen == Screen::agreements || m_screen == Screen::check));
}

void JoinModel::frame(const VoiceFrame& frame)
{
    m_levelDbfsA = frame.fastDbfsA;
    if (m_screen == Screen::check)
        (void)afterCheck(m_check.frame(frame)); // a greeting that was heard: nothing is to be kept of it
    else if (isInside() && !isResting())
        m_meter.add(frame);
}

void JoinModel::checkPlayed(const VoiceFrame& frame, float microphone, float played)
{
    m_levelDbfsA = frame.fastDbfsA;
    m_check.played(frame, microphone, played);
}

void JoinModel::followClass(const link::ClassFollow& follow, Instant now)
{
    const auto script = follow.script();
    m_followed = m_followed || follow.open();
    // A class that ended while the line was down is not spoken of any more when it is back.
    const bool gone = m_followed && !follow.open();
    m_classEnded = gone || (follow.place() && follow.place()->phase == Phase::ended);
    if (m_classEnded && isInside() && m_screen != Screen::calling)
        m_screen = Screen::over;
    if (!follow.open()) {
        m_meter.forget();
        m_cue.forget();
    }
    m_placeNow = follow.open() ? follow.place() : std::nullopt;
    if (!follow.place() || !script)
        return;
    m_script = script;
    m_cue.placeCame(*follow.place(), now);
    (void)lookAtCue(m_audible, now);
    const auto at = follow.turn();
    const std::string file = at && at->step->picture ? at->step->picture->file : std::string();
    if (file != m_pictureFile || (m_picture.isNull() && !file.empty())) {
        m_pictureFile = file;
        m_picture = QImage::fromData(follow.picture(file), "PNG");
    }
}

void JoinModel::soundCame(std::uint32_t stream, std::uint64_t firstSample, Instant now)
{
    m_cue.frameCame(stream, firstSample, now);
}

bool JoinModel::lookAtCue(std::optional<std::uint64_t> audibleUpTo, Instant now)
{
    m_audible = audibleUpTo;
    const bool moved = m_cue.look(audibleUpTo, now);
    lookAtWords(now);
    if (!moved || !m_script)
        return false;
    m_meter.follow(*m_cue.cue(), *m_script, m_welcome ? m_welcome->bandOffsetDb : 0.0F, now);
    return true;
}

std::optional<TurnAt> JoinModel::cuedTurn() const
{
    return m_script && m_cue.cue() ? turnAt(*m_script, m_cue.cue()->place) : std::nullopt;
}

void JoinModel::checkAgain()
{
    m_meter.useMicrophone();
    m_check.startFull();
    m_screen = Screen::check;
}

std::optional<wire::Today> JoinModel::today() const
{
    return m_saidToday ? std::optional(wire::Today{m_voice, m_checked}) : std::nullopt;
}

} // namespace vh::join
