// A program that is killed in the middle of writing loses the last two seconds at most, and never leaves a torn file.
#include "app/write/draft_keeper.h"
#include "common/script/writer.h"
#include "tests/app/write/write_classes.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <random>

using namespace vh;
using namespace vh::write;

namespace
{

struct Typed {
    qint64 number = 0;
    qint64 at = 0; ///< by the clock of the one who typed it
};

Typed typedOf(const QString& text)
{
    return {text.section(u' ', 0, 0).toLongLong(), text.section(u' ', 1, 1).toLongLong()};
}

/// Types for so long by its own clock, and is killed. The first and the last that it typed.
std::pair<Typed, Typed> typeAndDie(const QString& path, qint64 milliseconds)
{
    QProcess process;
    process.start(QStringLiteral(VH_BINARY_DIR "/bin/typing_process"), {path});
    QByteArray said;
    const auto lines = [&] { return said.left(said.lastIndexOf('\n') + 1).trimmed().split('\n'); };
    Typed first;
    Typed last;
    while (last.at - first.at <= milliseconds) {
        if (!process.waitForReadyRead(20'000))
            return {};
        said += process.readAllStandardOutput();
        if (said.contains('\n')) {
            first = typedOf(QString::fromLatin1(lines().first()));
            last = typedOf(QString::fromLatin1(lines().last()));
        }
    }
    process.kill(); // SIGKILL: nothing of it runs any more
    process.waitForFinished();
    said += process.readAllStandardOutput();
    return {first, typedOf(QString::fromLatin1(lines().last()))};
}

} // namespace

class TestCrash : public QObject
{
    Q_OBJECT
private slots:
    void aKilledProgramLosesTwoSecondsAtMost()
    {
        QTemporaryDir folder;
        const QString path = folder.filePath("pond.yaml");
        const std::string yaml = writeClassScript(testing::pondClass());
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write(yaml.data(), static_cast<qint64>(yaml.size())) > 0);
        file.close();

        std::mt19937 chance(20); // NOLINT: the same moments every time
        std::vector<qint64> moments{2600, 3100};
        for (int i = 0; i < 5; ++i)
            moments.push_back(std::uniform_int_distribution<qint64>(1, 1400)(chance));
        std::shuffle(moments.begin(), moments.end(), chance);

        qint64 drafted = 0;
        for (const qint64 moment : moments) {
            const auto [first, last] = typeAndDie(path, moment);
            QVERIFY2(last.number > 0, "the typing process did not type");
            QVERIFY(first.number == drafted + 1); // it went on from the draft
            DraftKeeper keeper({});
            QCOMPARE(keeper.take(path), DraftKeeper::Place::mine); // the dead hold nothing
            const auto found = keeper.unfinished();
            const Typed kept =
                found ? typedOf(QString::fromStdString(found->draft.script.sections[0].steps[0].text)) : Typed{};
            QVERIFY2(found || drafted == 0, "a draft was torn, or went");
            QVERIFY(kept.number >= drafted);
            // What was there when it began counts as typed then.
            const qint64 lost = last.at - std::max(kept.at, first.at);
            qInfo("killed after %lld ms: %lld ms lost", static_cast<long long>(last.at - first.at),
                  static_cast<long long>(lost));
            QVERIFY2(lost <= 2000, qPrintable(QStringLiteral("%1 ms lost").arg(lost)));
            drafted = kept.number;
            keeper.letGo();
            QVERIFY(file.open(QIODevice::ReadOnly));
            QCOMPARE(file.readAll().toStdString(), yaml); // the class that people read was not touched
            file.close();
            const QStringList left = QDir(folder.path()).entryList(QDir::Files | QDir::Hidden);
            QVERIFY2(left.size() <= 2, qPrintable(left.join(u' ')));
        }
        QVERIFY(drafted > 0);
    }
};

QTEST_GUILESS_MAIN(TestCrash)
#include "test_crash.moc"
