// What the person does on the screens of the participant's room.
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

} // namespace

bool JoinModel::isAsked(AgreementKind kind) const
{
    const bool means = kind == AgreementKind::otherLeaders ? m_agreements.resultsKept
                                                           : kind != AgreementKind::pictures; // before the first one
    return means && std::find(m_answered.begin(), m_answered.end(), kind) == m_answered.end();
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
    // Asked with the first questions, and confirmed at each joining; who has left it empty is not asked every day.
    const bool contactKnown = m_welcome && !(m_welcome->where.empty() && m_welcome->ring.empty());
    m_screen = contactKnown ? Screen::place : m_trail.empty() ? Screen::today : Screen::contact;
}

void JoinModel::toClass()
{
    m_way = Way::reviewing;
    m_trail.clear();
    m_call.pageIsLeft();
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
    case Screen::sameWords:
        return {{choice == 0 ? Wish::Kind::trustKey : Wish::Kind::leave}};
    case Screen::place:
        if (choice == 0) { // as it was: said once more, so that whoever looks knows that it is so today
            go(Screen::today);
            return {{Wish::Kind::contact, {}, m_welcome->where, m_welcome->ring}};
        }
        go(Screen::contact);
        return {};
    case Screen::today:
        return sayToday(choice);
    case Screen::check:
        return afterCheck(m_check.choose(choice));
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
        m_screen = Screen::choices;
    } else {
        m_trail.push_back({m_screen, m_question});
        nextQuestion();
    }
    return {{Wish::Kind::agree, question.kind, value}};
}

/// With whom to ring, on any day: whether somebody may when the line drops.
void JoinModel::askMayRing()
{
    const auto& all = questions();
    const auto found =
        std::find_if(all.begin(), all.end(), [](const Question& each) { return each.kind == AgreementKind::mayRing; });
    m_question = static_cast<std::size_t>(found - all.begin());
    m_screen = Screen::agreements;
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
    startCheck();
    return {{Wish::Kind::today}, {Wish::Kind::listen}};
}

/// In full, or by a greeting where this device and spot are known.
void JoinModel::startCheck()
{
    if (m_knowsMicrophone) {
        const auto& usuals = m_meter.usuals();
        const auto phrases = usuals.find(TaskKind::phrases);
        m_check.startGreeting(phrases == usuals.end() ? std::nullopt : phrases->second.inForce(), m_meter.roomDbfsA());
    } else {
        m_check.startFull();
    }
    go(Screen::check);
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
            askMayRing();
        else
            go(Screen::today);
        return {{Wish::Kind::contact, {}, text(0), text(1)}};
    case Screen::check:
        return afterCheck(m_check.submit(fields));
    default:
        return {};
    }
}

Wishes JoinModel::goBack()
{
    if (m_screen == Screen::check)
        return afterCheck(m_check.goBack());
    if (m_way == Way::reviewing && (m_screen == Screen::contact || m_screen == Screen::agreements)) {
        m_screen = Screen::choices;
        return {};
    }
    if (m_screen == Screen::people) {
        m_screen = Screen::writing;
        return {};
    }
    if (isInside()) {
        m_words.boardIsOpen(false);
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

Wishes JoinModel::pressCheck(CheckPress press)
{
    return m_screen == Screen::check ? afterCheck(m_check.press(press)) : Wishes{};
}

Wishes JoinModel::afterCheck(CheckFlow::Next next)
{
    using Next = CheckFlow::Next;
    switch (next) {
    case Next::stay:
        break;
    case Next::play:
        return {{Wish::Kind::playCheck}};
    case Next::stopPlaying:
        return {{Wish::Kind::stopCheckSound}};
    case Next::inClass:
        m_checked = true;
        m_meter.voiceWasHeard();
        toClass();
        return {{Wish::Kind::checked}};
    case Next::inClassUnsure:
        m_meter.setUsuals({}); // of a microphone that is not as it was, or is not known
        toClass();
        break;
    case Next::inClassKnown:
        if (m_check.greeting().done())
            m_meter.voiceWasHeard();
        toClass();
        break;
    }
    return {};
}

Wishes JoinModel::pressHelp()
{
    const bool asks = m_call.press();
    m_said.clear();
    m_screen = Screen::calling;
    return asks ? Wishes{{Wish::Kind::callHelp}} : Wishes{};
}

Wishes JoinModel::pressHello()
{
    m_saidHello = !m_saidHello;
    if (m_saidHello)
        ++m_hellos; // shown at once; the relay's own count comes within a second
    else if (m_hellos > 0)
        --m_hellos;
    return {{.kind = Wish::Kind::hello, .on = m_saidHello}};
}

Wishes JoinModel::pressNotice(NoticeAction action)
{
    switch (action) {
    case NoticeAction::none:
        return {};
    case NoticeAction::checkMicrophone:
        checkAgain();
        return {};
    case NoticeAction::handout:
        return pressHandout();
    case NoticeAction::readAnswer:
        m_reads = m_words.ownTurn() ? Reads::wished : Reads::now;
        return {};
    case NoticeAction::takeBackCall:
        break;
    }
    return takeBackCall();
}

Wishes JoinModel::takeBackCall()
{
    if (!m_call.isOut())
        return {};
    m_said = tr("Your call is taken back.");
    if (m_screen == Screen::calling)
        toClass();
    const auto call = m_call.takeBack();
    return call ? Wishes{{.kind = Wish::Kind::takeBackCall, .call = *call}} : Wishes{};
}

Wishes JoinModel::pressPrivate()
{
    const std::string value = m_agreements.levelVisible == LevelVisible::nobody ? "leader" : "nobody";
    setAgreement(AgreementKind::levelVisible, value);
    return {{Wish::Kind::agree, AgreementKind::levelVisible, value}};
}

Wishes JoinModel::answerInvitation(bool yes, std::uint32_t stream)
{
    if (!m_voices.answer(yes, stream))
        return {};
    return {{.kind = Wish::Kind::speakAnswer, .on = yes}};
}

Wishes JoinModel::pressHandout()
{
    switch (m_handout.press()) {
    case HandoutHere::Press::fetch:
        return {{.kind = Wish::Kind::fetchHandout}};
    case HandoutHere::Press::open:
        return {{.kind = Wish::Kind::openHandout}};
    case HandoutHere::Press::nothing:
        break;
    }
    return {};
}

Wishes JoinModel::endBeingHeard()
{
    if (!m_voices.end())
        return {};
    return {{.kind = Wish::Kind::endSpeaking}};
}

void JoinModel::pressChoices()
{
    if (m_screen != Screen::inClass)
        return;
    m_changed.reset();
    m_screen = Screen::choices;
}

void JoinModel::pressLeave()
{
    if (m_screen == Screen::inClass)
        m_screen = Screen::leaving;
}

} // namespace vh::join
