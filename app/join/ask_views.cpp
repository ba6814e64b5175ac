// Every screen of the participant but the class itself, in words.
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

} // namespace

JoinView JoinModel::view(const link::ClassFollow* follow) const
{
    if (m_voices.isAsked() && isInside()) // over whatever is shown, which is there again afterwards
        return m_voices.invitation(isResting());
    if (showsAnswer())
        return answerView();
    switch (m_screen) {
    case Screen::entry:
        return m_entry;
    case Screen::connecting:
        return WaitView{
            tr("One moment"), m_lineWords.isEmpty() ? m_waitWords : m_waitWords + "\n" + m_lineWords, {}, tr("Stop")};
    case Screen::door:
        return doorView();
    case Screen::sameWords:
        return sameWordsView();
    case Screen::agreements:
        return agreementView();
    case Screen::choices:
        return choicesView();
    case Screen::contact:
        return contactView();
    case Screen::place:
        return placeView();
    case Screen::calling:
        return callView();
    case Screen::today:
        return todayView();
    case Screen::check:
        return m_check.view({m_ears, m_loudspeaker, m_levelDbfsA, m_devices, m_device});
    case Screen::inClass:
        return classView(follow);
    case Screen::writing:
        return boardView(follow);
    case Screen::people:
        return peopleView(follow);
    case Screen::leaving:
        return leavingView();
    case Screen::over:
        break;
    }
    return overView();
}

WaitView JoinModel::doorView() const
{
    WaitView view;
    view.heading = tr("You are at the door");
    view.words = tr("A helper will let you in. Please wait a little.");
    if (!m_keyWords.isEmpty())
        view.words = tr("A helper will let you in, and can read you these four words by telephone. If the helper has "
                        "other words, please stop here.");
    if (m_line == link::LineState::lost)
        view.words = tr("The line is lost. Voicehall is coming back to the door by itself.");
    view.keyWords = m_keyWords;
    view.button = tr("Stop waiting");
    return view;
}

JoinView JoinModel::sameWordsView() const
{
    if (m_keyWords.isEmpty()) // being worked out
        return doorView();
    AskView view;
    view.heading = tr("Did the helper say these four words?");
    view.words = m_keyWords.join(QStringLiteral("  \u00b7  ")) + "\n" +
                 tr("If you have not talked yet, please ask the helper by telephone. Only when the words are the same "
                    "is this really your group.");
    view.choices = {{tr("Yes, the same words"), false}, {tr("No, stop here"), false}};
    return view;
}

WaitView JoinModel::overView() const
{
    WaitView view;
    view.button = tr("Close");
    if (m_classEnded) {
        view.heading = tr("The class is over");
        view.words = tr("Thank you for coming. Your microphone is off.");
        view.handout = m_line == link::LineState::in || m_handout.state() == HandoutHere::State::saved
                           ? m_handout.button()
                           : QString();
        if (!m_handout.words().isEmpty())
            view.words += "\n" + m_handout.words();
        if (m_line == link::LineState::in) // the line is up until "Close", and so are those who help
            view.help = m_call.captions().first();
    } else if (m_isOut) {
        view.heading = tr("A helper has asked you to leave today's class");
        view.words = QStringList{m_lineWords.isEmpty() ? QString() : tr("What the helper says: %1").arg(m_lineWords),
                                 tr("You can come in again once this class is over. If this is a mistake, please ring "
                                    "the person who invited you to the group."),
                                 tr("Your microphone is off.")}
                         .join('\n')
                         .trimmed();
    } else {
        view.heading = m_welcome ? tr("You are no longer in class") : tr("You could not come in");
        view.words =
            m_lineWords.isEmpty() ? tr("Your microphone is off.") : m_lineWords + "\n" + tr("Your microphone is off.");
    }
    return view;
}

AskView JoinModel::agreementView() const
{
    const Question& question = questions()[m_question];
    AskView view;
    view.heading = words(question.heading);
    view.words = words(question.words);
    const bool answered = std::find(m_answered.begin(), m_answered.end(), question.kind) != m_answered.end();
    for (const Answer& answer : question.answers)
        view.choices.push_back({words(answer.words), answered && valueOf(m_agreements, question.kind) == answer.value});
    view.canGoBack = true;
    return view;
}

AskView JoinModel::contactView() const
{
    AskView view;
    view.heading = tr("In case you need help");
    view.words = tr("Helpers and the leader see this only when you call for help, or, if you agreed to that, when "
                    "your line drops. You may leave it empty.");
    const QString where = QString::fromStdString(m_welcome ? m_welcome->where : "");
    const QString ring = QString::fromStdString(m_welcome ? m_welcome->ring : "");
    view.fields = {{tr("Where are you today?"), where, tr("street and town"), static_cast<int>(wire::kWhereLength)},
                   {tr("Whom should we ring?"), ring, tr("a name and a number"), static_cast<int>(wire::kWhereLength)}};
    view.choices = {{tr("Go on"), false}};
    view.canGoBack = true;
    return view;
}

/// At each joining: help would go to where the person is today. One press when it is as it was.
AskView JoinModel::placeView() const
{
    AskView view;
    const QString where = QString::fromStdString(m_welcome->where);
    const QString ring = QString::fromStdString(m_welcome->ring);
    view.heading = where.isEmpty() ? tr("Is this still whom we should ring?") : tr("Are you here today?");
    if (!where.isEmpty())
        view.words = where + "\n";
    if (!ring.isEmpty())
        view.words += tr("To ring: %1").arg(ring) + "\n";
    view.words += tr("Seen by a helper or the leader when you call for help.");
    view.choices = {{where.isEmpty() ? tr("Yes") : tr("Yes, I am here"), false}, {tr("No, I change it"), false}};
    view.canGoBack = true;
    view.startsOnFirst = true;
    return view;
}

CallView JoinModel::callView() const
{
    CallView view =
        m_call.view(m_line == link::LineState::in, QString::fromStdString(m_welcome ? m_welcome->where : ""));
    view.back = m_classEnded ? tr("Back") : tr("Back to the class");
    return view;
}

AskView JoinModel::todayView() const
{
    AskView view;
    view.heading = tr("How is your voice today?");
    view.choices = {{tr("Fine"), false}, {tr("Hoarse or sore"), false}, {tr("Just listening today"), false}};
    if (m_welcome && m_welcome->where.empty()) {
        view.words = tr("If you call for help, nobody knows where you are.");
        view.choices.push_back({tr("Say where I am"), false});
    }
    view.cautions = cautions();
    view.canGoBack = true;
    view.startsOnFirst = true;
    return view;
}

AskView JoinModel::leavingView() const
{
    AskView view;
    view.heading = tr("Leave the class?");
    view.words = tr("The class goes on. You can come back at any time.");
    if (m_words.isAnyOnItsWay())
        view.words += "\n" + tr("What you wrote has not gone out yet; if you leave now, it does not.");
    if (m_picturesOnTheirWay > 0)
        view.words += "\n" + tr("Your picture has not gone out yet; if you leave now, it does not.");
    view.choices = {{tr("Stay in class"), false}, {tr("Leave"), false}};
    view.startsOnFirst = true;
    return view;
}

} // namespace vh::join
