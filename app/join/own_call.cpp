#include "app/join/own_call.h"

#include <QCoreApplication>

#include <utility>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::OwnCall", source);
}

QString emergencyWords()
{
    return tr("Voicehall does not call the emergency services. In an emergency ring them yourself.");
}

/// "Two", as people say it; large numbers in figures.
QString numberWord(std::uint32_t number)
{
    static const char* const kWords[] = {
        QT_TRANSLATE_NOOP("vh::join::OwnCall", "no"),    QT_TRANSLATE_NOOP("vh::join::OwnCall", "one"),
        QT_TRANSLATE_NOOP("vh::join::OwnCall", "two"),   QT_TRANSLATE_NOOP("vh::join::OwnCall", "three"),
        QT_TRANSLATE_NOOP("vh::join::OwnCall", "four"),  QT_TRANSLATE_NOOP("vh::join::OwnCall", "five"),
        QT_TRANSLATE_NOOP("vh::join::OwnCall", "six"),   QT_TRANSLATE_NOOP("vh::join::OwnCall", "seven"),
        QT_TRANSLATE_NOOP("vh::join::OwnCall", "eight"), QT_TRANSLATE_NOOP("vh::join::OwnCall", "nine")};
    return number < std::size(kWords) ? tr(kWords[number]) : QString::number(number);
}

/// As one sentence among others, however it was written.
QString sentence(const QString& words)
{
    static const QString kEnds = QStringLiteral(".!?\u2026\u3002");
    const QString trimmed = words.trimmed();
    return trimmed.isEmpty() || kEnds.contains(trimmed.back()) ? trimmed : trimmed + '.';
}

QString capital(const QString& words)
{
    return words.left(1).toUpper() + words.mid(1);
}

} // namespace

void OwnCall::welcome(const wire::Welcome& welcome)
{
    m_helpers = welcome.helpers;
    m_leaders = welcome.leaders;
    m_whomToRing = QString::fromStdString(welcome.whomToRing);
    m_call.reset();
    if (!welcome.calls.empty()) {
        m_call = welcome.calls.back();
        m_pressed = false;
    }
}

bool OwnCall::take(const wire::ToClient& message)
{
    if (const auto* here = std::get_if<wire::Here>(&message)) {
        m_helpers = here->helpers;
        m_leaders = here->leaders;
    } else if (const auto* whom = std::get_if<wire::WhomToRing>(&message)) {
        m_whomToRing = QString::fromStdString(whom->text);
        return true;
    } else if (const auto* status = std::get_if<wire::CallStatus>(&message)) {
        if (m_takenBack)
            return true;
        m_pressed = false;
        m_closed = status->done && m_call;
        m_call = status->done ? std::nullopt : std::optional(*status);
        return true;
    }
    return false;
}

bool OwnCall::press()
{
    m_closed = false;
    if (isOut())
        return false;
    m_pressed = true;
    return !std::exchange(m_takenBack, false); // else it is on its way still
}

std::optional<std::uint64_t> OwnCall::takeBack()
{
    if (std::exchange(m_pressed, false)) { // it may be on its way: taken back as soon as it has a number
        m_takenBack = true;
        return std::nullopt;
    }
    const auto call = m_call ? std::optional(m_call->call) : std::nullopt;
    m_call.reset();
    return call;
}

std::optional<std::uint64_t> OwnCall::hasGoneOut(std::uint64_t call)
{
    m_pressed = false;
    if (std::exchange(m_takenBack, false)) {
        m_call.reset();
        return call;
    }
    if (!m_call)
        m_call = wire::CallStatus{call, {}, false};
    return std::nullopt;
}

QStringList OwnCall::whoSees() const
{
    if (m_helpers > 1)
        return {tr("%1 helpers are here").arg(numberWord(m_helpers)), tr("%1 helpers").arg(numberWord(m_helpers))};
    if (m_helpers == 1 && m_leaders > 0)
        return {tr("one helper and the leader"), tr("two are here")};
    if (m_helpers == 1)
        return {tr("one helper is here"), tr("one helper")};
    return m_leaders > 0 ? QStringList{tr("the leader is here"), tr("the leader")}
                         : QStringList{tr("nobody is here now"), tr("nobody is here")};
}

QStringList OwnCall::captions() const
{
    if (m_call && !m_call->takenBy.empty())
        return {tr("your call is taken"), tr("call is taken")};
    return isOut() ? QStringList{tr("your call is out"), tr("call is out")} : whoSees();
}

/// Whom to ring is the group's to say; without its words, what to do instead.
QString OwnCall::ringWords() const
{
    return m_whomToRing.isEmpty() ? tr("If it cannot wait, telephone somebody near you.")
                                  : tr("If it cannot wait, ring: %1").arg(sentence(m_whomToRing));
}

/// The same where there is little room; its page says all of it.
QString OwnCall::orRing() const
{
    return m_whomToRing.isEmpty() ? tr("Or telephone somebody near you.")
                                  : tr("Or ring: %1").arg(sentence(m_whomToRing));
}

QString OwnCall::notice(bool lineUp) const
{
    if (waits(lineUp))
        return tr("The line is lost. Your call goes out when it is back. %1").arg(orRing());
    if (!isOut())
        return {};
    if (m_call && !m_call->takenBy.empty())
        return tr("%1 has your call. %2").arg(QString::fromStdString(m_call->takenBy), emergencyWords());
    if (m_helpers + m_leaders == 0)
        return tr("Your call has gone out; nobody is here just now. %1").arg(orRing());
    return tr("Your call has gone out. %1").arg(emergencyWords());
}

QString OwnCall::nobodyHere() const
{
    if (m_helpers + m_leaders > 0 || isOut())
        return {};
    return m_whomToRing.isEmpty()
               ? tr("No helper is here now. If you need help, telephone somebody near you. %1").arg(emergencyWords())
               : tr("No helper is here now. If you need help, ring: %1 %2")
                     .arg(sentence(m_whomToRing), emergencyWords());
}

CallView OwnCall::view(bool lineUp, const QString& where) const
{
    CallView view;
    view.ring = ringWords();
    view.emergency = emergencyWords();
    if (m_closed) {
        view.heading = tr("Your call is closed");
        view.words = tr("Whoever had it has noted what was done. If you still need help, call again.");
        view.again = tr("I need help");
        return view;
    }
    view.takeBack = tr("Take it back");
    view.where = where.isEmpty() ? tr("You have not said where you are.")
                                 : tr("Whoever takes it sees where you are: %1").arg(where);
    if (waits(lineUp)) {
        view.heading = tr("Your call waits for the line");
        view.words = tr("The line is lost. Your call goes out by itself as soon as it is back.");
    } else if (m_call && !m_call->takenBy.empty()) {
        view.heading = tr("%1 has your call").arg(QString::fromStdString(m_call->takenBy));
        view.words = tr("Somebody looks after you now.");
        view.where = where.isEmpty() ? view.where : tr("They see where you are: %1").arg(where);
    } else {
        view.heading = tr("Your call has gone out");
        view.words = m_helpers + m_leaders > 0
                         ? tr("%1. As soon as somebody has taken it, it says so here.").arg(capital(whoSees().first()))
                         : tr("Nobody is here to help just now. Whoever comes sees it.");
    }
    return view;
}

} // namespace vh::join
