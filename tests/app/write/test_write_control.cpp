// The library and the days, used by keyboard as a leader does: what is pressed happens on disk, and can be taken back.
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/write/day_words.h"
#include "common/script/review.h"
#include "tests/app/write/library_fixture.h"
#include "tests/app/write/library_scenes.h"

#include <QApplication>
#include <QLineEdit>

using namespace vh;
using namespace vh::write;
using namespace vh::write::testing;

class TestWriteControl : public QObject
{
    Q_OBJECT
private:
    std::unique_ptr<WriteHere> m_here;

    void show()
    {
        m_here->room().show();
        m_here->room().activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&m_here->room()));
    }
    RowList* list() { return m_here->room().shown()->findChild<RowList*>(); }
    QString chosen()
    {
        const RowList::State& state = list()->state();
        return state.chosen < 0 ? QString() : state.rows[static_cast<std::size_t>(state.chosen)].head;
    }
    BigButton* button(const QString& words)
    {
        for (auto* each : m_here->room().shown()->findChildren<BigButton*>())
            if (each->text() == words && each->isVisible())
                return each;
        return nullptr;
    }
    EditorControl& editor() { return *m_here->room().findChild<EditorControl*>(); }
    QString saidInLibrary()
    {
        QString said;
        for (auto* notice : m_here->room().library().findChildren<NoticeLine*>())
            said += notice->state().words;
        return said;
    }
    static void key(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier)
    {
        QTest::keyClick(QApplication::focusWidget(), key, with);
    }
    static void type(const QString& words) { QTest::keyClicks(QApplication::focusWidget(), words); }
    std::vector<DayClass> planned() { return DaysFile(m_here->folder().path(), {}).load().planned(); }

private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }
    void init()
    {
        m_here = std::make_unique<WriteHere>();
        QVERIFY(m_here->isReady());
        show();
    }

    void theFieldFindsAsOneTypesAndKeepsTheKeyboard()
    {
        QVERIFY(qobject_cast<QLineEdit*>(QApplication::focusWidget()));
        QCOMPARE(chosen(), "Down the river"); // today's
        type("brea");
        QCOMPARE(chosen(), "Bread before dawn"); // its title, before all that speak of it
        const auto found = list()->state().rows.size();
        QVERIFY(found > 1 && found < 25);
        key(Qt::Key_Down);
        QVERIFY(chosen() != "Bread before dawn");
        type("d");
        QCOMPARE(list()->state().chosen, 0);
        key(Qt::Key_Escape);
        QCOMPARE(list()->state().rows.size(), std::size_t{25});
        QCOMPARE(chosen(), "Bread before dawn"); // what was looked at stays
        type("xylophone");
        QCOMPARE(chosen(), QString());
        QVERIFY(!button("Write"));
    }

    void aCopyAsksForItsTitleAtOnce()
    {
        type("market day");
        QTest::mouseClick(button("Copy"), Qt::LeftButton);
        auto* title = qobject_cast<QLineEdit*>(QApplication::focusWidget());
        QVERIFY(title);
        QCOMPARE(title->text(), "Market day 2");
        type("Flea market"); // over what is marked
        key(Qt::Key_Return);
        QCOMPARE(chosen(), "Flea market");
        QCOMPARE(readScriptFile(m_here->own("market-day-2.yaml"))->title, "Flea market");
        QCOMPARE(readScriptFile(m_here->own("market-day.yaml"))->title, "Market day");
        key(Qt::Key_F2);
        type("Something else");
        key(Qt::Key_Escape);
        QCOMPARE(chosen(), "Flea market");
        QCOMPARE(readScriptFile(m_here->own("market-day-2.yaml"))->title, "Flea market");
    }

    void whatIsPutAsideComesBackWithOneKey()
    {
        type("market day");
        key(Qt::Key_Tab);
        QCOMPARE(QApplication::focusWidget(), list());
        key(Qt::Key_Delete);
        QVERIFY(!QFile::exists(m_here->own("market-day.yaml")));
        QVERIFY(button("Put it back"));
        list()->setFocus();
        key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(QFile::exists(m_here->own("market-day.yaml")));
        QCOMPARE(chosen(), "Market day");
        QVERIFY(!button("Put it back"));
    }

    void bundledClassesCannotBePutAsideOrRenamed()
    {
        type("kite hill");
        QVERIFY(!button("Put aside")->isEnabled());
        key(Qt::Key_F2);
        QVERIFY(!button("Keep this title"));
        list()->setFocus();
        key(Qt::Key_Delete);
        QVERIFY(QFile::exists(QStringLiteral(VH_SOURCE_DIR "/content/classes/kite-hill.yaml")));
    }

    void aClassIsPlannedForADayFromTheLibrary()
    {
        type("spice market");
        key(Qt::Key_D, Qt::ControlModifier);
        QCOMPARE(m_here->room().shown(), &m_here->room().days());
        for (int i = 0; i < 3; ++i) // two classes today, then Wednesday, Thursday
            key(Qt::Key_Down);
        key(Qt::Key_Return);
        QCOMPARE(chosen(), "The spice market");
        const auto all = planned();
        QVERIFY(std::any_of(all.begin(), all.end(), [](const DayClass& each) {
            return each.key == "bundled:spice-market.yaml" && each.day == kSceneDay.addDays(2);
        }));
        key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(planned().size(), all.size() - 1);
        key(Qt::Key_Escape);
        QCOMPARE(m_here->room().shown(), &m_here->room().library());
    }

    void aDayGetsAClassFromTheLibrary()
    {
        m_here->control().toDays();
        while (chosen() != QString::fromUtf8("\u2013"))
            key(Qt::Key_Down); // Friday
        key(Qt::Key_Return);
        QCOMPARE(m_here->room().shown(), &m_here->room().library());
        QVERIFY(button("Plan it for this day"));
        type("night sky");
        key(Qt::Key_Return);
        QCOMPARE(m_here->room().shown(), &m_here->room().days());
        QCOMPARE(chosen(), "Under the night sky");
        const auto all = planned();
        QVERIFY(std::any_of(all.begin(), all.end(), [](const DayClass& each) {
            return each.key == "bundled:night-sky.yaml" && each.day == kSceneDay.addDays(3);
        }));
        key(Qt::Key_Escape);
        QVERIFY(button("Write")); // no day is waiting any more
    }

    void plannedClassesMoveAndGoByKey()
    {
        m_here->control().toDays();
        QCOMPARE(chosen(), "Down the river");
        key(Qt::Key_Down, Qt::AltModifier);
        QCOMPARE(chosen(), "Down the river");
        const auto all = planned();
        QVERIFY(std::any_of(all.begin(), all.end(), [](const DayClass& each) {
            return each.key == "bundled:down-the-river.yaml" && each.day == kSceneDay.addDays(1);
        }));
        key(Qt::Key_Delete);
        QCOMPARE(planned().size(), all.size() - 1);
    }

    void headingsAreSteppedOver()
    {
        m_here->control().toDays();
        QSet<QString> met;
        for (int i = 0; i < 30; ++i) {
            key(Qt::Key_Down);
            const RowList::State& state = list()->state();
            QVERIFY(!state.rows[static_cast<std::size_t>(state.chosen)].heading);
        }
        QCOMPARE(list()->state().chosen, static_cast<int>(list()->state().rows.size()) - 1);
        for (int i = 0; i < 40; ++i)
            key(Qt::Key_Up);
        QCOMPARE(list()->state().chosen, 1); // the first day, below its heading
    }

    void aNewClassGoesFromThemeToEditorAndIsListedAsADraft()
    {
        key(Qt::Key_N, Qt::ControlModifier);
        QVERIFY(qobject_cast<QLineEdit*>(QApplication::focusWidget())); // what it is about
        type("Copper kettles");
        key(Qt::Key_Return);
        QCOMPARE(m_here->room().shown(), editor().page());
        QCOMPARE(editor().path(), m_here->own("copper-kettles.yaml"));
        QVERIFY(!editor().document().toWrite().empty());
        type("Polish it well"); // the keyboard stands in the first text that is to write
        QCOMPARE(editor().document().text(), "Polish it well");
        emit editor().leaveRequested();
        QCOMPARE(m_here->room().shown(), &m_here->room().library());
        editor().keepNow();
        m_here->library().written(m_here->own("copper-kettles.yaml"));
        const ClassEntry* entry = m_here->library().entryAt(m_here->own("copper-kettles.yaml"));
        QVERIFY(entry && entry->unfinished);
        QCOMPARE(entry->theme, "Copper kettles");
    }

    void aClassThatIsBegunForADayIsPlannedForItWhenItIsSaved()
    {
        m_here->control().toDays();
        while (chosen() != QString::fromUtf8("\u2013"))
            key(Qt::Key_Down); // Friday
        key(Qt::Key_Return);
        key(Qt::Key_N, Qt::ControlModifier);
        type("Copper kettles");
        key(Qt::Key_Return);
        const auto before = planned().size();
        int number = 0;
        while (const auto next = editor().document().nextToWrite()) {
            editor().document().select(*next);
            editor().document().setText(QStringLiteral("Kettle number %1 is on the stove.").arg(++number), 0);
        }
        key(Qt::Key_S, Qt::ControlModifier);
        QVERIFY(QFile::exists(m_here->own("copper-kettles.yaml")));
        const auto all = planned();
        QCOMPARE(all.size(), before + 1);
        QVERIFY(std::any_of(all.begin(), all.end(), [](const DayClass& each) {
            return each.key == "own:copper-kettles.yaml" && each.day == kSceneDay.addDays(3);
        }));
        key(Qt::Key_S, Qt::ControlModifier); // once more is not twice
        QCOMPARE(planned().size(), before + 1);
    }

    void whatComesWithVoicehallIsWrittenInACopy()
    {
        type("kite hill");
        key(Qt::Key_Return);
        QCOMPARE(m_here->room().shown(), editor().page());
        QVERIFY(editor().path().startsWith(m_here->own({})));
        QCOMPARE(editor().document().script().title, std::string("A windy day on Kite Hill"));
        QVERIFY(editor().document().isClass());
    }

    void sentencesOfTheLastWeeksAreRemarked()
    {
        const auto script = readScriptFile(QStringLiteral(VH_SOURCE_DIR "/content/classes/soup-pots.yaml"));
        QVERIFY(script);
        DaysFile file(m_here->folder().path(), {});
        ClassDays days = file.load();
        days.keep({{kSceneDay.addDays(-2), "bundled:soup-pots.yaml", "Seven kitchens", "Food of many kitchens"},
                   Millis(1000),
                   Millis(1000),
                   sentencesSaid(*script)});
        QVERIFY(file.save(days));
        m_here->control().reloadDays();
        const auto used = [this] {
            const auto& remarks = editor().document().remarks();
            return std::count_if(remarks.begin(), remarks.end(),
                                 [](const Remark& remark) { return remark.code == "used-lately"; });
        };
        type("seven kitchens"); // written in a copy, which is another class
        key(Qt::Key_Return);
        QVERIFY(used() > 5);
    }

    void theChosenClassIsRehearsedAndOneComesBack()
    {
        type("slow train");
        key(Qt::Key_F5);
        QVERIFY(m_here->room().shown() != &m_here->room().library());
        QVERIFY(button("Start the clock"));
        QTest::mouseClick(button("Leave"), Qt::LeftButton);
        QCOMPARE(m_here->room().shown(), &m_here->room().library());
        QCOMPARE(chosen(), "The slow train");
    }

    void papersOfTheChosenClassAreOnePress()
    {
        type("slow train");
        key(Qt::Key_P, Qt::ControlModifier);
        const QDir papers(m_here->folder().filePath("papers"));
        QTRY_COMPARE(papers.entryList({"*.pdf"}).size(), 2);
        QTRY_VERIFY(saidInLibrary().contains("are saved in"));
    }

    void damagedDaysAreSaidAndKept()
    {
        const QString path = DaysFile(m_here->folder().path(), {}).path();
        QVERIFY(put(path, "{"));
        HandClock clock;
        WriteControl control({&clock, m_here->folder().path(), &m_here->library(), {}});
        bool said = false;
        for (auto* notice : control.room().library().findChildren<NoticeLine*>())
            said = said || notice->state().words.contains("days.json.damaged");
        QVERIFY(said);
        QCOMPARE(bytesOf(path + ".damaged"), "{");
    }

    void eachGroupHasItsOwnDays()
    {
        const std::vector<WriteGroup> groups{{GroupId::random(), "Lakeside voices"},
                                             {GroupId::random(), "Hill voices"}};
        m_here = std::make_unique<WriteHere>(groups);
        QVERIFY(m_here->isReady());
        show();
        m_here->control().toDays();
        QVERIFY(!m_here->control().days().planned().empty());
        QTest::mouseClick(button("Lakeside voices"), Qt::LeftButton);
        QVERIFY(m_here->control().days().planned().empty());
        QVERIFY(button("Hill voices"));
    }
};

QTEST_MAIN(TestWriteControl)
#include "test_write_control.moc"
