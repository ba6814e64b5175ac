#include "app/help/ready_replies.h"

#include <QCoreApplication>
#include <QDir>
#include <QSettings>

namespace vh::help
{

namespace
{

constexpr int kLongest = 500; // as an answer

QString words(const char* text)
{
    return QCoreApplication::translate("vh::help::ReadyReplies", text);
}

QString keyOf(int number)
{
    return QStringLiteral("answer%1").arg(number);
}

QStringList toBeginWith()
{
    QStringList replies{words("Thank you for telling us."), words("I have passed it on."),
                        words("The reading is in today's handout."),
                        words("Please press I need help, then one of us is with you.")};
    replies.resize(kReadyReplies);
    return replies;
}

QString pathIn(const QString& folder)
{
    return QDir(folder).filePath(QStringLiteral("answers.ini"));
}

} // namespace

QStringList keptReplies(const QString& folder)
{
    const QSettings file(pathIn(folder), QSettings::IniFormat);
    if (folder.isEmpty() || !file.contains(keyOf(1)))
        return toBeginWith();
    QStringList replies;
    for (int number = 1; number <= kReadyReplies; ++number)
        replies << file.value(keyOf(number)).toString().left(kLongest);
    return replies;
}

bool keepReplies(const QString& folder, const QStringList& replies)
{
    QDir().mkpath(folder);
    QSettings file(pathIn(folder), QSettings::IniFormat);
    for (int number = 1; number <= kReadyReplies; ++number)
        file.setValue(keyOf(number), replies.value(number - 1));
    file.sync();
    return file.status() == QSettings::NoError;
}

} // namespace vh::help
