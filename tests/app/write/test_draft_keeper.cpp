// What is written is on disk soon, the class itself is replaced only by a whole valid class, and what the disk refuses
// is said and tried again.
#include "app/write/draft_keeper.h"
#include "common/script/reader.h"
#include "common/script/writer.h"
#include "tests/app/write/write_classes.h"

#include <QDir>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <csignal>
#include <sys/resource.h>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;

namespace
{

using Kept = DraftKeeper::State::Kept;

constexpr DraftKeeper::Setup kQuick{std::chrono::milliseconds{5}, std::chrono::milliseconds{10}};

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray("nothing there");
}

bool put(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

} // namespace

class TestDraftKeeper : public QObject
{
    Q_OBJECT
private:
    struct Here {
        QTemporaryDir folder;
        QString path = folder.filePath("pond.yaml");
        ClassScript script = pondClass();
        QByteArray yaml = QByteArray::fromStdString(writeClassScript(script));
        DraftKeeper keeper{kQuick};

        Here()
        {
            keeper.setSource([this] { return Draft{script, {0, 1}, {}, 0}; });
            if (!put(path, yaml))
                qFatal("cannot write into %s", qPrintable(path));
        }
        void change(const char* text)
        {
            script.sections[0].steps[0].text = text;
            keeper.touch();
        }
        [[nodiscard]] std::string drafted() const
        {
            const auto draft = DraftKeeper::draftBeside(path);
            return draft ? draft->script.sections[0].steps[0].text : "no draft";
        }
    };

private slots:
    void aDraftComesSoonAndTheClassStaysAsItIs()
    {
        Here here;
        QCOMPARE(here.keeper.take(here.path), DraftKeeper::Place::mine);
        QCOMPARE(here.keeper.state().kept, Kept::nothingNew);
        here.change("");
        QCOMPARE(here.keeper.state().kept, Kept::soon);
        QTRY_COMPARE(here.keeper.state().kept, Kept::draft);
        QCOMPARE(here.drafted(), std::string()); // which no class may have
        QCOMPARE(contentOf(here.path), here.yaml);
        here.change("Row.");
        here.change("Row on.");
        QTRY_COMPARE(here.drafted(), std::string("Row on."));
    }

    void savingReplacesTheClassAndTheDraftIsGone()
    {
        Here here;
        here.keeper.take(here.path);
        here.change("Row on.");
        QVERIFY(here.keeper.keepNow());
        QVERIFY(QFile::exists(DraftKeeper::draftPathOf(here.path)));
        QCOMPARE(here.keeper.saveClass(here.script).value(), here.path);
        QCOMPARE(here.keeper.state().kept, Kept::nothingNew);
        QVERIFY(!QFile::exists(DraftKeeper::draftPathOf(here.path)));
        const auto read = readClassScript(contentOf(here.path).toStdString(), "pond.yaml");
        QVERIFY(read && *read == here.script);
        QTest::qWait(30); // a timer that was on its way writes nothing any more
        QVERIFY(!QFile::exists(DraftKeeper::draftPathOf(here.path)));
    }

    void whatWasNotFinishedIsFoundAgain()
    {
        Here here;
        here.keeper.take(here.path);
        QVERIFY(!here.keeper.unfinished());
        here.change("Not finished");
        QVERIFY(here.keeper.keepNow());
        here.keeper.letGo();
        DraftKeeper next{kQuick};
        QCOMPARE(next.take(here.path), DraftKeeper::Place::mine);
        const auto found = next.unfinished();
        QVERIFY(found);
        QVERIFY(found->draft.script == here.script);
        QCOMPARE(found->draft.spot, (Spot{0, 1}));
        QVERIFY(!found->classChanged);
        QVERIFY(found->draft.written > 0);
        next.letGo();
        // Somebody changed the class itself meanwhile.
        QVERIFY(put(here.path, QByteArray(here.yaml).replace("At the pond", "By the pond")));
        next.take(here.path);
        QVERIFY(next.unfinished()->classChanged);
        next.letGo();
        // A draft that says what the class says is nothing to ask about.
        QVERIFY(put(here.path, QByteArray::fromStdString(writeClassScript(here.script))));
        next.take(here.path);
        QVERIFY(!next.unfinished());
    }

    void aDraftSetAsideIsKeptUnderANameOfItsOwn()
    {
        Here here;
        here.keeper.take(here.path);
        for (const char* text : {"first", "second"}) {
            here.change(text);
            QVERIFY(here.keeper.keepNow());
            here.keeper.setAside();
            QVERIFY(!here.keeper.unfinished());
        }
        QCOMPARE(readDraft(contentOf(here.path + ".aside-1"))->script.sections[0].steps[0].text, std::string("first"));
        QCOMPARE(readDraft(contentOf(here.path + ".aside-2"))->script.sections[0].steps[0].text, std::string("second"));
    }

    void aSecondWindowIsTold()
    {
        Here here;
        QCOMPARE(here.keeper.take(here.path), DraftKeeper::Place::mine);
        DraftKeeper second{kQuick};
        QCOMPARE(second.take(here.path), DraftKeeper::Place::anothers);
        QCOMPARE(second.path(), QString());
        here.keeper.letGo();
        QCOMPARE(second.take(here.path), DraftKeeper::Place::mine);
    }

    void aFolderThatRefusesIsSaidAndTriedAgainAndNothingIsLost()
    {
        Here here;
        const QString away = here.folder.filePath("away/pond.yaml"); // no such folder yet: nothing can be written there
        QCOMPARE(here.keeper.take(away), DraftKeeper::Place::refused);
        here.change("Kept in the end");
        QTRY_COMPARE(here.keeper.state().kept, Kept::cannot);
        QVERIFY(!here.keeper.state().why.isEmpty());
        QVERIFY(!here.keeper.keepNow());
        QVERIFY(!here.keeper.saveClass(here.script));
        QVERIFY(QDir(here.folder.path()).mkdir("away"));
        QTRY_COMPARE(here.keeper.state().kept, Kept::draft);
        QCOMPARE(DraftKeeper::draftBeside(away)->script.sections[0].steps[0].text, std::string("Kept in the end"));
    }

    void aFullDiskLeavesWhatWasThereAndIsTriedAgain()
    {
        Here here;
        here.keeper.take(here.path);
        here.change("Before the disk was full");
        QVERIFY(here.keeper.keepNow());
        // As near as a test comes to a full disk: no file may grow beyond 100 bytes.
        std::signal(SIGXFSZ, SIG_IGN);
        rlimit usual{};
        QCOMPARE(getrlimit(RLIMIT_FSIZE, &usual), 0);
        rlimit full = usual;
        full.rlim_cur = 100;
        QCOMPARE(setrlimit(RLIMIT_FSIZE, &full), 0);
        here.change("While the disk was full");
        const bool kept = here.keeper.keepNow();
        const bool saved = here.keeper.saveClass(here.script).has_value();
        QCOMPARE(setrlimit(RLIMIT_FSIZE, &usual), 0);
        QVERIFY(!kept);
        QVERIFY(!saved);
        QCOMPARE(here.drafted(), std::string("Before the disk was full"));
        QCOMPARE(contentOf(here.path), here.yaml);
        QCOMPARE(here.keeper.state().kept, Kept::cannot);
        QTRY_COMPARE(here.keeper.state().kept, Kept::draft); // there is room again
        QCOMPARE(here.drafted(), std::string("While the disk was full"));
    }

    void whatAnEndedProgramLeftHalfWrittenGoes()
    {
        Here here;
        const QString half = DraftKeeper::draftPathOf(here.path) + ".Ab12Cd";
        QVERIFY(put(half, "{\"voicehallDra"));
        QCOMPARE(here.keeper.take(here.path), DraftKeeper::Place::mine);
        QVERIFY(!QFile::exists(half));
        QVERIFY(QFile::exists(here.path));
    }

    void anyStateOfAClassComesBackFromADraft()
    {
        Draft draft{pondClass(), {1, 0}, "abcd", 42};
        Step& step = draft.script.sections[0].steps[1];
        step.text = "  Über\n\"quoted\" \\<  ";
        step.stretches = {{2, 4}};
        step.note = "\t";
        step.picture = Picture{"pictures/x.png", ""};
        step.optionalDearness = 4;
        step.rounds.push_back({true, {}});
        draft.script.title.clear();
        draft.script.sections.push_back({SectionKind::pause, "", {}});
        const auto read = readDraft(bytesOf(draft));
        QVERIFY(read);
        QVERIFY(read->script == draft.script);
        QCOMPARE(read->spot, draft.spot);
        QCOMPARE(read->basedOn, draft.basedOn);
        QCOMPARE(read->written, draft.written);
    }

    void aTornDraftIsRefusedAsAWhole()
    {
        const QByteArray bytes = bytesOf({pondClass(), {0, 0}, {}, 0});
        for (qsizetype length = 0; length < bytes.size(); length += 7)
            QVERIFY(!readDraft(bytes.left(length)));
        for (const char* wrong : {"[]", "{}", "{\"voicehallDraft\":2,\"class\":{}}", "null"})
            QVERIFY(!readDraft(wrong));
        QVERIFY(!readDraft(QByteArray(bytes).replace("\"phrases\"", "\"verses\"")));
        QVERIFY(!readDraft(QByteArray(bytes).replace("\"marks\":[]", "\"marks\":[[5,400]]")));
    }
};

QTEST_GUILESS_MAIN(TestDraftKeeper)
#include "test_draft_keeper.moc"
