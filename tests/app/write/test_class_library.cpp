// The library: what is in the folders is there, quickly the second time; nothing that is somebody's is lost.
#include "app/write/class_index.h"
#include "tests/app/write/library_fixture.h"

using namespace vh;
using namespace vh::write;
using namespace vh::write::testing;

class TestClassLibrary : public QObject
{
    Q_OBJECT
private:
    std::unique_ptr<LibraryHere> m_here;

private slots:
    void init()
    {
        m_here = std::make_unique<LibraryHere>();
        QVERIFY(m_here->folder.isValid() && m_here->fill());
    }

    void bundledAndOwnClassesAreListedByTitle()
    {
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        QCOMPARE(titlesOf(library), QStringList({"A windy day", "Round the pond", "Warm loaves"}));
        const ClassEntry* kites = library.entryAt(m_here->bundled("kites.yaml"));
        QVERIFY(kites && kites->bundled && !kites->unread);
        QCOMPARE(kites->theme, "Kites");
        QCOMPARE(kites->length, Millis(12'000));
        QCOMPARE(kites->parts.size(), std::size_t{1});
        QCOMPARE(kites->parts.front().firstLine, "The kite pulls at the line.");
        QCOMPARE(kites->pictures, QStringList("pictures/kite.svg"));
        QVERIFY(!library.entryAt(m_here->own("pond.yaml"))->bundled);
    }

    void whatIsKnownShowsBeforeAnythingNewIsRead()
    {
        { // what the folders hold now becomes the index
            ClassLibrary before(m_here->folders);
            QVERIFY(settle(before));
        }
        QVERIFY(put(m_here->own("new.yaml"), classFile("Brand new", "New", "Never read before this.")));
        ClassLibrary library(m_here->folders);
        QSignalSpy changed(&library, &ClassLibrary::changed);
        std::vector<bool> unread; // at the first and at every later change
        connect(&library, &ClassLibrary::changed, this, [&] {
            unread.push_back(library.entryAt(m_here->own("new.yaml"))->unread);
            QCOMPARE(library.entryAt(m_here->own("pond.yaml"))->title, "Round the pond");
        });
        QVERIFY(settle(library));
        QCOMPARE(unread, std::vector<bool>({true, false}));
        QCOMPARE(library.entryAt(m_here->own("new.yaml"))->title, "Brand new");
    }

    void theIndexStandsForTheFilesUntilTheyChange()
    {
        {
            ClassLibrary before(m_here->folders);
            QVERIFY(settle(before));
        }
        // An index that says something else of a file shows that the file is not read again.
        auto entries = readIndex(m_here->folders.index);
        QVERIFY(entries);
        QCOMPARE(entries->size(), std::size_t{3});
        for (ClassEntry& entry : *entries)
            entry.theme += " from the index";
        QVERIFY(writeIndex(m_here->folders.index, *entries));
        QVERIFY(put(m_here->own("bread.yaml"), classFile("Warm loaves", "Bread and salt", "Another text it is.")));
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        QCOMPARE(library.entryAt(m_here->own("pond.yaml"))->theme, "Pond from the index");
        QCOMPARE(library.entryAt(m_here->own("bread.yaml"))->theme, "Bread and salt");
        // What was read again is in the index from now on.
        entries = readIndex(m_here->folders.index);
        QVERIFY(entries);
        for (const ClassEntry& entry : *entries)
            if (entry.path.endsWith("bread.yaml"))
                QCOMPARE(entry.theme, "Bread and salt");
    }

    void aDamagedIndexIsMadeAnew_data()
    {
        QTest::addColumn<int>("damage");
        QTest::newRow("empty") << 0;
        QTest::newRow("cut short") << 1;
        QTest::newRow("a byte turned") << 2;
        QTest::newRow("something else") << 3;
    }
    void aDamagedIndexIsMadeAnew()
    {
        QFETCH(const int, damage);
        {
            ClassLibrary before(m_here->folders);
            QVERIFY(settle(before));
        }
        QByteArray bytes = bytesOf(m_here->folders.index);
        QVERIFY(bytes.size() > 100);
        if (damage == 0)
            bytes.clear();
        else if (damage == 1)
            bytes.chop(40);
        else if (damage == 2)
            bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 0x10);
        else
            bytes = qCompress(QByteArray(1000, 'x'));
        QVERIFY(put(m_here->folders.index, bytes));
        QVERIFY(!readIndex(m_here->folders.index));
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        QCOMPARE(titlesOf(library).size(), 3);
        QCOMPARE(library.entryAt(m_here->own("pond.yaml"))->theme, "Pond");
        QVERIFY(readIndex(m_here->folders.index));
    }

    void aBrokenFileIsListedWithItsMistake()
    {
        QVERIFY(put(m_here->own("half.yaml"), "title: Half a class\ntheme: Halves\nminutes: many\n"));
        for (int opening = 0; opening < 2; ++opening) { // the second time from the index
            ClassLibrary library(m_here->folders);
            QVERIFY(settle(library));
            const ClassEntry* broken = library.entryAt(m_here->own("half.yaml"));
            QVERIFY(broken);
            QCOMPARE(broken->title, "half");
            QVERIFY(broken->mistakes.size() >= 2);
            QVERIFY(!broken->mistakes.front().message.isEmpty() && broken->mistakes.front().line > 0);
            QCOMPARE(library.found("half").size(), std::size_t{1});
        }
    }

    void aCopyHasItsOwnPicturesAndTheNextFreeTitle()
    {
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        const QByteArray before = bytesOf(m_here->bundled("kites.yaml"));
        const auto copied = library.copy(m_here->bundled("kites.yaml"));
        QVERIFY(copied);
        const ClassEntry* copy = library.entryAt(*copied);
        QVERIFY(copy && !copy->bundled); // at once, not only after the next look
        QCOMPARE(copy->title, "A windy day 2");
        QCOMPARE(copy->pictures, QStringList("pictures/a-windy-day-2-1.svg"));
        QCOMPARE(bytesOf(m_here->own(copy->pictures.front())), bytesOf(m_here->bundled("pictures/kite.svg")));
        QCOMPARE(bytesOf(m_here->bundled("kites.yaml")), before);
        const auto again = library.copy(*copied);
        QVERIFY(again);
        QCOMPARE(library.entryAt(*again)->title, "A windy day 3");
        QVERIFY(library.entryAt(*again)->pictures != library.entryAt(*copied)->pictures);
    }

    void whatCameWithTheProgramIsWrittenInACopy()
    {
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        const auto path = library.toWrite(m_here->bundled("kites.yaml"));
        QVERIFY(path);
        QVERIFY(path->startsWith(m_here->folders.own));
        QCOMPARE(library.entryAt(*path)->title, "A windy day");
        QCOMPARE(*library.toWrite(*path), *path); // her own is written as it is
        QCOMPARE(library.rename(m_here->bundled("kites.yaml"), "Mine").error().code, "bundled");
        QCOMPARE(library.putAside(m_here->bundled("kites.yaml")).error().code, "bundled");
    }

    void aClassGetsAnotherTitleAndKeepsItsFile()
    {
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        QVERIFY(library.rename(m_here->own("pond.yaml"), "  Early at the pond "));
        QCOMPARE(library.entryAt(m_here->own("pond.yaml"))->title, "Early at the pond");
        QCOMPARE(readScriptFile(m_here->own("pond.yaml"))->title, "Early at the pond");
        const QByteArray before = bytesOf(m_here->own("pond.yaml"));
        QCOMPARE(library.rename(m_here->own("pond.yaml"), "   ").error().code, "title");
        QCOMPARE(bytesOf(m_here->own("pond.yaml")), before);
    }

    void whatIsPutAsideCanBePutBackWithItsPictures()
    {
        QVERIFY(put(m_here->own("one.yaml"), classFile("One", "Twins", "We share a picture.", "pictures/shared.png")));
        QVERIFY(
            put(m_here->own("two.yaml"), classFile("Two", "Twins", "So we do, the two of us.", "pictures/shared.png")));
        QVERIFY(put(m_here->own("pictures/shared.png"), "not really a picture"));
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        const QByteArray one = bytesOf(m_here->own("one.yaml"));
        QVERIFY(!library.canPutBack());
        QVERIFY(library.putAside(m_here->own("one.yaml")));
        QVERIFY(!library.entryAt(m_here->own("one.yaml")));
        QVERIFY(!QFile::exists(m_here->own("one.yaml")));
        QVERIFY(QFile::exists(m_here->own("pictures/shared.png"))); // the other class has it, too
        QCOMPARE(bytesOf(m_here->own("Put aside/one/one.yaml")), one);
        QCOMPARE(bytesOf(m_here->own("Put aside/one/pictures/shared.png")), "not really a picture");
        QVERIFY(library.putAside(m_here->own("two.yaml")));
        QVERIFY(!QFile::exists(m_here->own("pictures/shared.png"))); // nobody needs it there any more
        QVERIFY(settle(library));
        QVERIFY(!library.entryAt(m_here->own("two.yaml"))); // what lies aside is not looked into

        QCOMPARE(*library.putBack(), m_here->own("two.yaml"));
        QCOMPARE(*library.putBack(), m_here->own("one.yaml"));
        QVERIFY(!library.canPutBack());
        QCOMPARE(bytesOf(m_here->own("one.yaml")), one);
        QVERIFY(QFile::exists(m_here->own("pictures/shared.png")));
        QCOMPARE(library.entryAt(m_here->own("two.yaml"))->title, "Two");
    }

    void puttingBackNeverWritesOverWhatIsThereNow()
    {
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        QVERIFY(library.putAside(m_here->own("pond.yaml")));
        const QByteArray other = classFile("Another pond", "Pond", "This one is new and wants to stay.");
        QVERIFY(put(m_here->own("pond.yaml"), other));
        QCOMPARE(library.putBack().error().code, "in-its-place");
        QCOMPARE(bytesOf(m_here->own("pond.yaml")), other);
        QVERIFY(QFile::exists(m_here->own("Put aside/pond/pond.yaml")));
    }

    void newFilesInTheFolderAreNoticed()
    {
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        QVERIFY(put(m_here->own("March/rain.yaml"), classFile("Rain", "Rain", "It drums on the roof tonight.")));
        QTRY_VERIFY(library.entryAt(m_here->own("March/rain.yaml")));
        QTRY_COMPARE(library.entryAt(m_here->own("March/rain.yaml"))->title, "Rain");
        QVERIFY(QFile::remove(m_here->own("pond.yaml")));
        QTRY_VERIFY(!library.entryAt(m_here->own("pond.yaml")));
    }

    void withoutFoldersThereIsNothingAndTheFirstCopyMakesOne()
    {
        QVERIFY(QDir(m_here->folders.own).removeRecursively());
        ClassLibrary library(m_here->folders);
        QVERIFY(settle(library));
        QCOMPARE(titlesOf(library), QStringList("A windy day"));
        QVERIFY(library.copy(m_here->bundled("kites.yaml")));
        QCOMPARE(titlesOf(library).size(), 2);
    }

    void aClassKeepsItsNameWhenTheFoldersMove()
    {
        ClassLibrary library(m_here->folders);
        const QString own = m_here->own("March/rain.yaml");
        QCOMPARE(library.keyOf(own), "own:March/rain.yaml");
        QCOMPARE(library.pathOf("own:March/rain.yaml"), own);
        QCOMPARE(library.keyOf(m_here->bundled("kites.yaml")), "bundled:kites.yaml");
        QCOMPARE(library.pathOf("bundled:kites.yaml"), m_here->bundled("kites.yaml"));
        QCOMPARE(library.keyOf("/somewhere/else.yaml"), "/somewhere/else.yaml");
        QCOMPARE(library.pathOf("/somewhere/else.yaml"), "/somewhere/else.yaml");
    }
};

QTEST_GUILESS_MAIN(TestClassLibrary)
#include "test_class_library.moc"
