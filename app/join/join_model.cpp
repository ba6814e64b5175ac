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

constexpr qsizetype kBoardLines = 3;

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
    m_helpers = welcome.helpers;
    if (first) // later ones may be older than what was answered meanwhile, and is on its way up
        for (const wire::AgreementValue& each : welcome.agreements)
            setAgreement(each.kind, each.value);
    m_call.reset();
    if (!welcome.calls.empty()) {
        m_call = welcome.calls.back();
        m_calling = false;
    }
    if (!welcome.board.empty())
        take(wire::ToClient(wire::Board{0, welcome.board}));
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
        while (m_board.size() > kBoardLines)
            m_board.removeFirst();
        m_said.clear();
    } else if (const auto* call = std::get_if<wire::CallStatus>(&message)) {
        m_calling = false;
        m_call = *call;
        if (call->done)
            m_call.reset();
    } else if (const auto* band = std::get_if<wire::Band>(&message); band && m_welcome) {
        m_welcome->bandOffsetDb = band->offsetDb;
    }
}

void JoinModel::refused(Wish::Kind what, const QString& why)
{
    if (what == Wish::Kind::callHelp) {
        m_calling = false;
        m_said = tr("Your call for help did not go out. Please press again, or telephone.");
    } else if (what == Wish::Kind::write) {
        m_said = tr("What you wrote was not taken: %1").arg(why);
    }
}

void JoinModel::devicesAre(const QStringList& names, int chosen)
{
    m_devices = names;
    m_device = chosen;
}

bool JoinModel::isInside() const
{
    return m_screen == Screen::inClass || m_screen == Screen::writing || m_screen == Screen::leaving ||
           m_screen == Screen::agreed ||
           (m_way == Way::reviewing && (m_screen == Screen::agreements || m_screen == Screen::contact));
}

void JoinModel::frame(const VoiceFrame& frame)
{
    m_levelDbfsA = frame.fastDbfsA;
    if (m_screen == Screen::check)
        m_check.add(frame);
    else if (isInside() && !isResting())
        m_meter.add(frame);
}

void JoinModel::followClass(const link::ClassFollow& follow, Instant now)
{
    const auto script = follow.script();
    m_followed = m_followed || follow.open();
    // A class that ended while the line was down is not spoken of any more when it is back.
    const bool gone = m_followed && !follow.open();
    m_classEnded = gone || (follow.place() && follow.place()->phase == Phase::ended);
    if (m_classEnded && isInside())
        m_screen = Screen::over;
    if (!follow.open())
        m_meter.forget();
    if (!follow.place() || !script)
        return;
    m_meter.follow(*follow.place(), *script, m_welcome ? m_welcome->bandOffsetDb : 0.0F, now);
    const auto at = follow.turn();
    const std::string file = at && at->step->picture ? at->step->picture->file : std::string();
    if (file != m_pictureFile || (m_picture.isNull() && !file.empty())) {
        m_pictureFile = file;
        m_picture = QImage::fromData(follow.picture(file), "PNG");
    }
}

void JoinModel::checkAgain()
{
    m_meter.useMicrophone();
    m_check = {};
    m_screen = Screen::check;
}

std::optional<wire::Today> JoinModel::today() const
{
    return m_saidToday ? std::optional(wire::Today{m_voice, m_checked}) : std::nullopt;
}

// --- what the person does ------------------------------------------------------------------------------------------

bool JoinModel::isAsked(AgreementKind kind) const
{
    const bool means = kind != AgreementKind::otherLeaders || m_agreements.resultsKept;
    return means && std::find(m_answered.begin(), m_answered.end(), kind) == m_answered.end();
}

std::vector<std::size_t> JoinModel::reviewed() const
{
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < questions().size(); ++i)
        if (questions()[i].kind != AgreementKind::otherLeaders || m_agreements.resultsKept)
            all.push_back(i);
    return all;
}

void JoinModel::go(Screen screen)
{
    m_trail.push_back({m_screen, m_question});
    m_screen = screen;
}

void JoinModel::nextQuestion()
{
    while (m_question < questions().size() && !isAsked(questions()[m_question].kind))
        ++m_question;
    if (m_question < questions().size())
        return;
    // Asked with the first questions; whoever has been here sees it with today's question, and may have left it empty.
    const bool contactKnown = m_welcome && !(m_welcome->where.empty() && m_welcome->ring.empty());
    m_screen = contactKnown || m_trail.empty() ? Screen::today : Screen::contact;
}

void JoinModel::toClass()
{
    m_way = Way::reviewing;
    m_trail.clear();
    m_screen = m_classEnded ? Screen::over : Screen::inClass;
}

void JoinModel::setAgreement(AgreementKind kind, const std::string& value)
{
    if (!setValue(m_agreements, kind, value))
        return;
    if (std::find(m_answered.begin(), m_answered.end(), kind) == m_answered.end())
        m_answered.push_back(kind);
}

Wishes JoinModel::choose(int choice)
{
    switch (m_screen) {
    case Screen::agreements:
        return answer(choice);
    case Screen::agreed:
        if (const auto list = reviewed(); choice >= 0 && choice < static_cast<int>(list.size())) {
            m_question = list[static_cast<std::size_t>(choice)];
            m_screen = Screen::agreements;
        } else {
            m_screen = Screen::contact; // the last one
        }
        return {};
    case Screen::sameWords:
        return {{choice == 0 ? Wish::Kind::trustKey : Wish::Kind::leave}};
    case Screen::today:
        return sayToday(choice);
    case Screen::leaving:
        if (choice == 1)
            return {{Wish::Kind::leave}};
        toClass();
        return {};
    default:
        return {};
    }
}

Wishes JoinModel::answer(int choice)
{
    const Question& question = questions()[m_question];
    if (choice < 0 || choice >= static_cast<int>(question.answers.size()))
        return {};
    const std::string value = question.answers[static_cast<std::size_t>(choice)].value;
    setAgreement(question.kind, value);
    if (m_way == Way::reviewing) {
        m_screen = Screen::agreed;
    } else {
        m_trail.push_back({m_screen, m_question});
        nextQuestion();
    }
    return {{Wish::Kind::agree, question.kind, value}};
}

Wishes JoinModel::sayToday(int choice)
{
    if (choice == static_cast<int>(wire::VoiceToday::listening) + 1) { // somewhere else today
        go(Screen::contact);
        return {};
    }
    if (choice < 0 || choice > static_cast<int>(wire::VoiceToday::listening))
        return {};
    m_voice = static_cast<wire::VoiceToday>(choice);
    m_saidToday = true;
    m_checked = m_knowsMicrophone;
    if (isResting()) { // the microphone stays off
        toClass();
        return {{Wish::Kind::today}};
    }
    if (m_knowsMicrophone) {
        toClass();
    } else {
        m_check = {};
        go(Screen::check);
    }
    return {{Wish::Kind::today}, {Wish::Kind::listen}};
}

Wishes JoinModel::submit(const QStringList& fields)
{
    const auto text = [&](int i) { return fields.value(i).trimmed().toStdString(); };
    switch (m_screen) {
    case Screen::entry:
        for (int i = 0; i < static_cast<int>(m_entry.fields.size()); ++i)
            m_entry.fields[static_cast<std::size_t>(i)].value = fields.value(i);
        return {{Wish::Kind::comeIn, {}, text(0), text(1), text(2)}};
    case Screen::contact:
        if (m_welcome) {
            m_welcome->where = text(0);
            m_welcome->ring = text(1);
        }
        if (m_way == Way::reviewing)
            m_screen = Screen::agreed;
        else
            go(Screen::today);
        return {{Wish::Kind::contact, {}, text(0), text(1)}};
    case Screen::writing:
        toClass();
        if (text(0).empty())
            return {};
        m_said = tr("Your words are with the helpers. They read them first.");
        return {{Wish::Kind::write, {}, text(0)}};
    default:
        return {};
    }
}

Wishes JoinModel::goBack()
{
    if (m_way == Way::reviewing && (m_screen == Screen::agreements || m_screen == Screen::contact)) {
        m_screen = Screen::agreed;
        return {};
    }
    if (isInside()) {
        toClass();
        return {};
    }
    if (m_trail.empty())
        return {{Wish::Kind::leave}};
    m_screen = m_trail.back().screen;
    m_question = m_trail.back().question;
    m_trail.pop_back();
    return {};
}

Wishes JoinModel::pressWait() const
{
    return {{Wish::Kind::leave}};
}

Wishes JoinModel::pressCheck(bool skip)
{
    if (skip) {
        toClass();
        return {};
    }
    if (m_check.stage() != MicCheck::Stage::done)
        return {};
    if (m_check.finding() != MicCheck::Finding::fine) {
        m_check = {};
        return {};
    }
    m_checked = true;
    m_meter.voiceWasHeard();
    toClass();
    return {{Wish::Kind::checked}};
}

Wishes JoinModel::pressHelp()
{
    if (m_call || m_calling)
        return {};
    m_calling = true;
    m_said.clear();
    return {{Wish::Kind::callHelp}};
}

Wishes JoinModel::pressPrivate()
{
    const std::string value = m_agreements.levelVisible == LevelVisible::nobody ? "leader" : "nobody";
    setAgreement(AgreementKind::levelVisible, value);
    return {{Wish::Kind::agree, AgreementKind::levelVisible, value}};
}

void JoinModel::pressWrite()
{
    if (m_screen == Screen::inClass)
        m_screen = Screen::writing;
}

void JoinModel::pressAgreements()
{
    if (m_screen == Screen::inClass)
        m_screen = Screen::agreed;
}

void JoinModel::pressLeave()
{
    if (m_screen == Screen::inClass)
        m_screen = Screen::leaving;
}

} // namespace vh::join
