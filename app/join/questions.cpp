#include "app/join/questions.h"

#include <QCoreApplication>

namespace vh::join
{

QString words(const char* source)
{
    return QCoreApplication::translate("questions", source);
}

const std::vector<Question>& questions()
{
    static const std::vector<Question> all{
        {AgreementKind::levelVisible,
         QT_TRANSLATE_NOOP("questions", "May others see how strong your voice is?"),
         QT_TRANSLATE_NOOP("questions", "Only a level is shown. The sound itself stays in your home. You can change "
                                        "your answer on any day."),
         QT_TRANSLATE_NOOP("questions", "My level is seen by"),
         {{"leader", QT_TRANSLATE_NOOP("questions", "Yes, the leader"), QT_TRANSLATE_NOOP("questions", "the leader")},
          {"leader-and-helpers", QT_TRANSLATE_NOOP("questions", "Yes, the leader and the helpers"),
           QT_TRANSLATE_NOOP("questions", "leader and helpers")},
          {"nobody", QT_TRANSLATE_NOOP("questions", "No, keep it private"), QT_TRANSLATE_NOOP("questions", "nobody")}}},
        {AgreementKind::resultsKept,
         QT_TRANSLATE_NOOP("questions", "May your results be kept?"),
         QT_TRANSLATE_NOOP("questions",
                           "Then you and your leader can see how your voice gets on over the weeks. If you "
                           "say no later, what was kept is deleted."),
         QT_TRANSLATE_NOOP("questions", "My results are kept"),
         {{"yes", QT_TRANSLATE_NOOP("questions", "Yes, keep them"), QT_TRANSLATE_NOOP("questions", "yes")},
          {"no", QT_TRANSLATE_NOOP("questions", "No"), QT_TRANSLATE_NOOP("questions", "no")}}},
        {AgreementKind::otherLeaders,
         QT_TRANSLATE_NOOP("questions", "May other leaders of this group read your results?"),
         QT_TRANSLATE_NOOP("questions", "For the days on which somebody else leads."),
         QT_TRANSLATE_NOOP("questions", "Other leaders may read them"),
         {{"yes", QT_TRANSLATE_NOOP("questions", "Yes"), QT_TRANSLATE_NOOP("questions", "yes")},
          {"no", QT_TRANSLATE_NOOP("questions", "No, only my own leader"), QT_TRANSLATE_NOOP("questions", "no")}}},
        {AgreementKind::attendanceNamed,
         QT_TRANSLATE_NOOP("questions", "May your attendance be kept under your name?"),
         QT_TRANSLATE_NOOP("questions", "Otherwise you are only counted."),
         QT_TRANSLATE_NOOP("questions", "My attendance, by name"),
         {{"yes", QT_TRANSLATE_NOOP("questions", "Yes, under my name"), QT_TRANSLATE_NOOP("questions", "yes")},
          {"no", QT_TRANSLATE_NOOP("questions", "No, only count me"), QT_TRANSLATE_NOOP("questions", "no")}}},
        {AgreementKind::nameSeen,
         QT_TRANSLATE_NOOP("questions", "May the others in class see your name?"),
         QT_TRANSLATE_NOOP("questions", "For example beside what you write to the group. Your level is never shown to "
                                        "the others."),
         QT_TRANSLATE_NOOP("questions", "The others see my name"),
         {{"yes", QT_TRANSLATE_NOOP("questions", "Yes"), QT_TRANSLATE_NOOP("questions", "yes")},
          {"no", QT_TRANSLATE_NOOP("questions", "No"), QT_TRANSLATE_NOOP("questions", "no")}}},
        {AgreementKind::addressed,
         QT_TRANSLATE_NOOP("questions", "May the leader send you a word of your own?"),
         QT_TRANSLATE_NOOP("questions", "One short line during class, on your screen alone. Nobody else sees it."),
         QT_TRANSLATE_NOOP("questions", "Words for me alone"),
         {{"kind", QT_TRANSLATE_NOOP("questions", "Yes, kind words"), QT_TRANSLATE_NOOP("questions", "kind words")},
          {"prompts", QT_TRANSLATE_NOOP("questions", "Yes, and what I could try"),
           QT_TRANSLATE_NOOP("questions", "and what to try")},
          {"not", QT_TRANSLATE_NOOP("questions", "No"), QT_TRANSLATE_NOOP("questions", "none")}}},
        {AgreementKind::pictures,
         QT_TRANSLATE_NOOP("questions", "May the group see pictures that you send?"),
         QT_TRANSLATE_NOOP("questions", "Helpers look at each one first. It is kept 30 days."),
         QT_TRANSLATE_NOOP("questions", "The group sees my pictures"),
         {{"yes", QT_TRANSLATE_NOOP("questions", "Yes"), QT_TRANSLATE_NOOP("questions", "yes")},
          {"no", QT_TRANSLATE_NOOP("questions", "No"), QT_TRANSLATE_NOOP("questions", "no")}}},
        {AgreementKind::mayRing,
         QT_TRANSLATE_NOOP("questions", "May somebody ring if your line drops in class?"),
         QT_TRANSLATE_NOOP("questions", "A helper or the leader then sees where you are and whom to ring. Each such "
                                        "look is noted down."),
         QT_TRANSLATE_NOOP("questions", "Ring if my line drops"),
         {{"yes", QT_TRANSLATE_NOOP("questions", "Yes"), QT_TRANSLATE_NOOP("questions", "yes")},
          {"no", QT_TRANSLATE_NOOP("questions", "No"), QT_TRANSLATE_NOOP("questions", "no")}}},
    };
    return all;
}

QStringList cautions()
{
    return {words(QT_TRANSLATE_NOOP("questions", "Stop if it hurts, if you feel dizzy or short of breath, or if your "
                                                 "voice turns hoarse. Do not push.")),
            words(QT_TRANSLATE_NOOP("questions", "At water pauses, follow your own drinking and swallowing plan.")),
            words(QT_TRANSLATE_NOOP("questions", "This is a practice aid, not for diagnosis or treatment decisions. "
                                                 "Your own clinician's advice and local rules come first."))};
}

QString shortCaution()
{
    return words(QT_TRANSLATE_NOOP(
        "questions", "Stop if it hurts, if you feel dizzy or short of breath, or if your voice turns hoarse."));
}

QString pauseCaution()
{
    return words(QT_TRANSLATE_NOOP("questions", "Follow your own drinking and swallowing plan. Nothing is asked of "
                                                "you now."));
}

} // namespace vh::join
