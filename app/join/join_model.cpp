#include "app/join/join_model.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::join
{

namespace
{

QString tr(const char* words)
{
    return QCoreApplication::translate("vh::join::JoinModel", words);
}

/// The agreements that mean something today, in the order in which they are asked.
struct Question {
    AgreementKind kind;
    const char* heading;
    const char* words;
    std::vector<std::pair<const char*, const char*>> answers; ///< value, words
};

const std::vector<Question>& questions()
{
    static const std::vector<Question> all{
        {AgreementKind::levelVisible,
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "May others see how strong your voice is?"),
         QT_TRANSLATE_NOOP("vh::join::JoinModel",
                           "Only a level is shown, never your sound, which stays in your home. You can change this on "
                           "any day."),
         {{"leader", QT_TRANSLATE_NOOP("vh::join::JoinModel", "Yes, the leader")},
          {"leader-and-helpers", QT_TRANSLATE_NOOP("vh::join::JoinModel", "The leader and the helpers")},
          {"nobody", QT_TRANSLATE_NOOP("vh::join::JoinModel", "No, keep it private")}}},
        {AgreementKind::resultsKept,
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "May your results be kept?"),
         QT_TRANSLATE_NOOP("vh::join::JoinModel",
                           "Then you and your leader can see how your voice gets on over the weeks. If you say no "
                           "later, what was kept is deleted."),
         {{"yes", QT_TRANSLATE_NOOP("vh::join::JoinModel", "Yes, keep them")},
          {"no", QT_TRANSLATE_NOOP("vh::join::JoinModel", "No")}}},
        {AgreementKind::otherLeaders,
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "May other leaders of this group read your results?"),
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "For the days on which somebody else leads."),
         {{"yes", QT_TRANSLATE_NOOP("vh::join::JoinModel", "Yes")},
          {"no", QT_TRANSLATE_NOOP("vh::join::JoinModel", "No, only my own leader")}}},
        {AgreementKind::attendanceNamed,
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "May your attendance be kept under your name?"),
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "Otherwise you are only counted."),
         {{"yes", QT_TRANSLATE_NOOP("vh::join::JoinModel", "Yes, under my name")},
          {"no", QT_TRANSLATE_NOOP("vh::join::JoinModel", "No, only count me")}}},
        {AgreementKind::nameSeen,
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "May the others in class see your name?"),
         QT_TRANSLATE_NOOP("vh::join::JoinModel", "For example beside what you write on the board. Nobody but those "
                                                  "you chose ever sees your level."),
         {{"yes", QT_TRANSLATE_NOOP("vh::join::JoinModel", "Yes")},
          {"no", QT_TRANSLATE_NOOP("vh::join::JoinModel", "No")}}},
    };
    return all;
}

/// Said at joining, in plain words (screens: cautions, always near).
QStringList cautions()
{
    return {tr("Stop if it hurts, if you feel dizzy or short of breath, or if your voice turns hoarse."),
            tr("At water pauses, follow your own drinking and swallowing plan."),
            tr("This is a practice aid, not for diagnosis or treatment decisions. Your own clinician's advice and "
               "local rules come first.")};
}

std::vector<Wish> one(Wish wish)
{
    return {std::move(wish)};
}

} // namespace

// --- what happens --------------------------------------------------------------------------------------------------

void JoinModel::startAtEntry(const QString& address, const QString& code, const QString& name, const QString& wrong)
{
    m_screen = Screen::entry;
    m_entry = {};
    m_entry.heading = tr("Join a class");
    m_entry.words = tr("Your group gave you a link, or an address and a code.");
    m_entry.fields = {{tr("Link or address"), address, tr("for example hall.example.org")},
                      {tr("Code"), code, tr("six signs; leave it empty with a link")},
                      {tr("Your name, as the group knows you"), name, {}}};
    m_entry.choices = {{tr("Come in"), false}};
    m_entry.notice = wrong;
    m_entry.canGoBack = true;
}

void JoinModel::connecting(const QString& to)
{
    m_screen = Screen::connecting;
    m_waitWords = to;
}

void JoinModel::lineIs(link::LineState state, const QString& ending)
{
    m_line = state;
    m_ending = ending;
    if (state == link::LineState::atDoor)
        m_screen = Screen::door;
    else if (state == link::LineState::ended)
        m_screen = Screen::over;
}

void JoinModel::welcome(const wire::Welcome& welcome, bool knowsMicrophone)
{
    const bool first = !m_welcome;
    m_welcome = welcome;
    m_here = welcome.here;
    m_helpers = welcome.helpers;
    m_answered.clear();
    for (const wire::AgreementValue& each : welcome.agreements)
        if (setValue(m_agreements, each.kind, each.value))
            m_answered.push_back(each.kind);
    m_call.reset();
    m_calling = false;
    if (!welcome.calls.empty())
        m_call = welcome.calls.back();
    for (const wire::BoardItem& item : welcome.board)
        take(wire::ToClient(wire::Board{0, {item}}));
    if (!first)
        return; // back after a lost line: the screen stays what it was
    m_knowsMicrophone = knowsMicrophone;
    m_question = 0;
    m_reviewing = false;
    m_screen = Screen::agreements;
    nextQuestion();
}

void JoinModel::take(const wire::ToClient& message)
{
    if (const auto* here = std::get_if<wire::Here>(&message)) {
        m_here = here->here;
        m_helpers = here->helpers;
    } else if (const auto* board = std::get_if<wire::Board>(&message)) {
        for (const wire::BoardItem& item : board->items) {
            const QString text = QString::fromStdString(item.text);
            const QString name =
                item.kind == wire::ItemKind::notice ? tr("From the desk") : QString::fromStdString(item.name);
            m_board.append(name.isEmpty() ? text : name + ": " + text);
        }
        while (m_board.size() > 3)
            m_board.removeFirst();
    } else if (const auto* call = std::get_if<wire::CallStatus>(&message)) {
        m_calling = false;
        m_call = *call;
        if (call->done)
            m_call.reset();
    } else if (const auto* band = std::get_if<wire::Band>(&message); band && m_welcome) {
        m_welcome->bandOffsetDb = band->offsetDb;
    }
}

void JoinModel::devicesAre(const QStringList& names, int chosen)
{
    m_devices = names;
    m_device = chosen;
}

void JoinModel::frame(const VoiceFrame& frame)
{
    m_levelDbfsA = frame.fastDbfsA;
    if (m_screen == Screen::check)
        m_check.add(frame);
    else if ((m_screen == Screen::inClass || m_screen == Screen::writing) && !isResting())
        m_meter.add(frame);
}

void JoinModel::followClass(const link::ClassFollow& follow, Instant now)
{
    const auto script = follow.script();
    if (!follow.place() || !script) {
        if (!follow.open())
            m_meter.forget();
        return;
    }
    m_classEnded = follow.place()->phase == Phase::ended;
    m_meter.follow(*follow.place(), *script, m_welcome ? m_welcome->bandOffsetDb : 0.0F, now);
    if (m_classEnded && (m_screen == Screen::inClass || m_screen == Screen::writing))
        m_screen = Screen::over;
}

// --- what the person does ------------------------------------------------------------------------------------------

bool JoinModel::isAsked(AgreementKind kind) const
{
    if (kind == AgreementKind::otherLeaders && !m_agreements.resultsKept)
        return false;
    return m_reviewing || std::find(m_answered.begin(), m_answered.end(), kind) == m_answered.end();
}

void JoinModel::nextQuestion()
{
    while (m_question < questions().size() && !isAsked(questions()[m_question].kind))
        ++m_question;
    if (m_question < questions().size())
        return;
    if (m_reviewing)
        return toClass();
    if (m_welcome && m_welcome->where.empty() && m_welcome->ring.empty())
        m_screen = Screen::contact;
    else
        toToday();
}

void JoinModel::toToday()
{
    m_screen = Screen::today;
}

void JoinModel::toClass()
{
    m_reviewing = false;
    m_screen = m_classEnded ? Screen::over : Screen::inClass;
}

void JoinModel::setAgreement(AgreementKind kind, const std::string& value)
{
    (void)setValue(m_agreements, kind, value);
    if (std::find(m_answered.begin(), m_answered.end(), kind) == m_answered.end())
        m_answered.push_back(kind);
}

std::vector<Wish> JoinModel::choose(int choice)
{
    if (m_screen == Screen::agreements) {
        const Question& question = questions()[m_question];
        const std::string value = question.answers.at(static_cast<std::size_t>(choice)).first;
        setAgreement(question.kind, value);
        ++m_question;
        nextQuestion();
        return one({Wish::Kind::agree, question.kind, value, {}, {}, {}});
    }
    if (m_screen == Screen::today) {
        m_voice = static_cast<wire::VoiceToday>(choice);
        m_saidToday = true;
        std::vector<Wish> wishes = one({Wish::Kind::today, {}, {}, {}, {}, m_voice});
        if (isResting() || m_knowsMicrophone) {
            toClass();
        } else {
            m_check = {};
            m_screen = Screen::check;
        }
        wishes.push_back({Wish::Kind::listen, {}, {}, {}, {}, {}});
        return wishes;
    }
    return {};
}

std::vector<Wish> JoinModel::submit(const QStringList& fields)
{
    const auto text = [&](int i) { return fields.value(i).trimmed().toStdString(); };
    switch (m_screen) {
    case Screen::entry:
        for (int i = 0; i < static_cast<int>(m_entry.fields.size()); ++i)
            m_entry.fields[static_cast<std::size_t>(i)].value = fields.value(i);
        return one({Wish::Kind::comeIn, {}, text(0), text(1), text(2), {}});
    case Screen::contact:
        if (m_welcome) {
            m_welcome->where = text(0);
            m_welcome->ring = text(1);
        }
        toToday();
        return one({Wish::Kind::contact, {}, text(0), text(1), {}, {}});
    case Screen::writing:
        toClass();
        return text(0).empty() ? std::vector<Wish>{} : one({Wish::Kind::write, {}, text(0), {}, {}, {}});
    default:
        return {};
    }
}

std::vector<Wish> JoinModel::goBack()
{
    if (m_screen == Screen::writing || (m_screen == Screen::agreements && m_reviewing)) {
        toClass();
        return {};
    }
    return one({Wish::Kind::leave, {}, {}, {}, {}, {}});
}

std::vector<Wish> JoinModel::pressWait()
{
    return one({Wish::Kind::leave, {}, {}, {}, {}, {}});
}

std::vector<Wish> JoinModel::pressCheck(bool skip)
{
    if (skip) {
        toClass();
        return one({Wish::Kind::skipCheck, {}, {}, {}, {}, {}});
    }
    if (m_check.stage() != MicCheck::Stage::done) {
        m_check.speakNow();
        return {};
    }
    if (m_check.finding() != MicCheck::Finding::fine) {
        m_check = {};
        return {};
    }
    toClass();
    return one({Wish::Kind::checked, {}, {}, {}, {}, {}});
}

std::vector<Wish> JoinModel::pressHelp()
{
    if (m_call || m_calling)
        return {};
    m_calling = true;
    return one({Wish::Kind::callHelp, {}, {}, {}, {}, {}});
}

std::vector<Wish> JoinModel::pressPrivate()
{
    const std::string value = m_agreements.levelVisible == LevelVisible::nobody ? "leader" : "nobody";
    setAgreement(AgreementKind::levelVisible, value);
    return one({Wish::Kind::agree, AgreementKind::levelVisible, value, {}, {}, {}});
}

void JoinModel::pressWrite()
{
    if (m_screen == Screen::inClass)
        m_screen = Screen::writing;
}

void JoinModel::pressAgreements()
{
    if (m_screen != Screen::inClass)
        return;
    m_reviewing = true;
    m_question = 0;
    m_screen = Screen::agreements;
}

// --- the view ------------------------------------------------------------------------------------------------------

AskView JoinModel::agreementView() const
{
    const Question& question = questions()[m_question];
    AskView view;
    view.heading = tr(question.heading);
    view.words = tr(question.words);
    const bool answered = std::find(m_answered.begin(), m_answered.end(), question.kind) != m_answered.end();
    for (const auto& [value, words] : question.answers)
        view.choices.push_back({tr(words), answered && valueOf(m_agreements, question.kind) == value});
    view.canGoBack = true;
    return view;
}

AskView JoinModel::todayView() const
{
    AskView view;
    view.heading = tr("How is your voice today?");
    view.choices = {{tr("Fine"), false}, {tr("Hoarse or sore"), false}, {tr("Just listening today"), false}};
    view.cautions = cautions();
    view.canGoBack = true;
    return view;
}

CheckView JoinModel::checkView() const
{
    CheckView view;
    view.progress = m_check.progress();
    view.levelDbfsA = m_levelDbfsA;
    view.devices = m_devices;
    view.device = m_device;
    view.canSkip = true;
    if (m_ears != sound::EarsState::hearing)
        view.notice = sound::wordsOf(m_ears);
    switch (m_check.stage()) {
    case MicCheck::Stage::room:
        view.heading = tr("First, your room");
        view.words = tr("Please be quiet for three seconds.");
        break;
    case MicCheck::Stage::speak:
        view.heading = tr("Now your voice");
        view.words = tr("Please read this aloud twice, as you would talk at home.");
        view.line = tr("Good morning. I live here, and I like it. On some days I walk to the shop and back.");
        break;
    case MicCheck::Stage::done:
        switch (m_check.finding()) {
        case MicCheck::Finding::fine:
            view.heading = tr("Your microphone hears you well");
            view.words = tr("Please keep it where it is now. Stay at about the same distance during class.");
            break;
        case MicCheck::Finding::noSound:
            view.heading = tr("No sound comes from this microphone");
            view.words =
                tr("It may be switched off, or another one may be meant. Please choose one below and try again.");
            break;
        case MicCheck::Finding::noVoice:
            view.heading = tr("I did not hear a voice");
            view.words = tr("Please come a little nearer to the microphone and try again.");
            break;
        case MicCheck::Finding::clipping:
            view.heading = tr("This microphone is turned up too far");
            view.words = tr("Please turn its input down in the sound settings, or move back a little, and try again.");
            break;
        case MicCheck::Finding::tooNoisy:
            view.heading = tr("The room is too loud beside your voice");
            view.words = tr("Please switch off what hums or plays, or come nearer to the microphone, and try again.");
            break;
        }
        break;
    }
    return view;
}

/// The person's own call for help stands first, and hides nothing else that they have to know.
NoticeLine::State JoinModel::noticeNow(const link::ClassFollow* follow) const
{
    NoticeLine::State notice = situation(follow);
    if (!m_call && !m_calling)
        return notice;
    const QString taken = m_call ? QString::fromStdString(m_call->takenBy) : QString();
    const QString call = taken.isEmpty() ? tr("Your call has gone out. This does not call emergency services.")
                                         : tr("%1 has your call. This does not call emergency services.").arg(taken);
    const bool more = notice.tone == NoticeLine::Tone::heed;
    return {more ? call + "\n" + notice.words : call, NoticeLine::Tone::heed};
}

NoticeLine::State JoinModel::situation(const link::ClassFollow* follow) const
{
    using Tone = NoticeLine::Tone;
    if (m_line == link::LineState::lost || m_line == link::LineState::connecting)
        return {tr("The line is lost. Voicehall is coming back by itself; you can go on speaking."), Tone::heed};
    const QString leader = follow && follow->place() ? QString::fromStdString(follow->place()->leaderName) : QString();
    if (m_ears == sound::EarsState::deviceLost || m_ears == sound::EarsState::noDevice)
        return {sound::wordsOf(m_ears), Tone::heed};
    const HomeLine line = follow && follow->place() ? follow->place()->line : HomeLine::classNotStarted;
    switch (line) {
    case HomeLine::leaderAway:
        return {tr("%1's line is lost. Please wait a moment; the class goes on.").arg(leader), Tone::heed};
    case HomeLine::calmPause:
        return {tr("We pause until somebody can lead again. There is nothing to do. Rest your voice."), Tone::calm};
    case HomeLine::standInLeads:
        return {tr("%1 leads now.").arg(leader), Tone::calm};
    case HomeLine::classWaits:
        return {tr("%1 is waiting a moment.").arg(leader), Tone::calm};
    case HomeLine::classNotStarted:
        return {tr("The class has not begun yet."), Tone::calm};
    case HomeLine::classRuns:
    case HomeLine::ended:
        break;
    }
    if (isResting())
        return {tr("You are listening today."), Tone::calm};
    return {m_board.isEmpty() ? QString() : m_board.last(), Tone::calm};
}

ClassView JoinModel::classView(const link::ClassFollow* follow) const
{
    ClassView view;
    view.board = m_board;
    view.notice = noticeNow(follow);
    const std::uint32_t others = m_here > 0 ? m_here - 1 : 0;
    view.others = others == 1 ? tr("1 other is here") : tr("%1 others are here").arg(others);
    view.helpWords = m_helpers == 0   ? tr("No helper is here now")
                     : m_helpers == 1 ? tr("One helper is here")
                                      : tr("%1 helpers are here").arg(m_helpers);
    view.isPrivate = m_agreements.levelVisible == LevelVisible::nobody;
    view.sharing = view.isPrivate ? tr("Only you see your level") : tr("The leader can see your level");
    if (m_agreements.levelVisible == LevelVisible::leaderAndHelpers)
        view.sharing = tr("Leader and helpers can see your level");
    view.title = follow && follow->open() ? QString::fromStdString(follow->open()->title)
                                          : QString::fromStdString(m_welcome ? m_welcome->groupName : "");

    const auto at = follow ? follow->turn() : std::nullopt;
    const bool begun = follow && follow->place() && follow->place()->phase != Phase::notStarted;
    if (!at || !begun) {
        view.sheet.text.text = tr("The class will begin soon.").toStdString();
        view.sheet.cue.words = tr("Welcome");
        view.showMeter = false;
        return view;
    }
    const QString leader = QString::fromStdString(follow->place()->leaderName);
    if (!leader.isEmpty())
        view.others += " · " + tr("%1 leads").arg(leader);

    view.rail.current = follow->place()->place.section;
    const auto script = follow->script();
    for (const Section& section : script->sections) {
        Millis planned{0};
        for (const Step& step : section.steps)
            for (const Round& round : step.rounds)
                for (const Turn& turn : round.turns)
                    planned += turn.planned;
        view.rail.parts.push_back({QString::fromStdString(section.title), planned, section.kind == SectionKind::pause});
    }
    view.rail.done = plannedLength(*script) - plannedFrom(*script, follow->place()->place);

    view.sheet.text.text = at->step->text;
    view.sheet.text.stretches = at->step->stretches;
    if (at->section->kind == SectionKind::pause) {
        view.sheet.cue.words = tr("Water pause");
        view.showMeter = false;
    } else {
        view.sheet.cue.turn = at->turn->kind;
        view.sheet.cue.moreVoice = at->round->moreVoice && at->turn->kind != TurnKind::listen;
    }
    if (at->step->picture) {
        view.sheet.picture.loadFromData(follow->picture(at->step->picture->file), "PNG");
        view.sheet.pictureDescription = QString::fromStdString(at->step->picture->description);
    }

    const HomeMeter::View meter = m_meter.view();
    view.showMeter = view.showMeter && !isResting();
    view.meter.standing = meter.standing;
    view.meter.reason = meter.reason;
    view.meter.band = meter.band;
    view.meter.overUsualDb = meter.nowOverUsualDb;
    if (meter.listening && at->turn->kind == TurnKind::withMe && meter.heard)
        view.meter.words = tr("I hear you");
    return view;
}

JoinView JoinModel::view(const link::ClassFollow* follow) const
{
    switch (m_screen) {
    case Screen::entry:
        return m_entry;
    case Screen::connecting:
        return WaitView{tr("One moment"), m_waitWords, {}, tr("Stop")};
    case Screen::door: {
        WaitView view;
        view.heading = tr("You are at the door");
        view.words = m_keyWords.isEmpty()
                         ? tr("A helper will let you in. Please wait a little.")
                         : tr("A helper will let you in. They will ask you for these four words, by telephone or in "
                              "a call you trust. If the helper's words are different, please stop here.");
        view.keyWords = m_keyWords;
        view.button = tr("Stop waiting");
        return view;
    }
    case Screen::agreements:
        return agreementView();
    case Screen::contact: {
        AskView view;
        view.heading = tr("In case you need help");
        view.words = tr("Helpers see this only when you call for help. You may leave it empty.");
        view.fields = {{tr("Where are you today?"), {}, tr("street and town")},
                       {tr("Whom should we ring?"), {}, tr("a name and a number")}};
        view.choices = {{tr("Go on"), false}};
        view.canGoBack = true;
        return view;
    }
    case Screen::today:
        return todayView();
    case Screen::check:
        return checkView();
    case Screen::inClass:
        return classView(follow);
    case Screen::writing: {
        AskView view;
        view.heading = tr("Write to the group");
        view.words = tr("A helper reads it first and lets it through.");
        view.fields = {{tr("Your words"), {}, {}}};
        view.choices = {{tr("Send"), false}};
        view.canGoBack = true;
        return view;
    }
    case Screen::over:
        break;
    }
    WaitView view;
    view.heading = m_classEnded ? tr("The class is over") : tr("You are no longer in class");
    view.words = m_classEnded || m_ending.isEmpty() ? tr("Thank you for coming. Your microphone is off.")
                                                    : m_ending + "\n" + tr("Your microphone is off.");
    view.button = tr("Close");
    return view;
}

} // namespace vh::join
