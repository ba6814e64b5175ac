#include "tests/app/write/library_scenes.h"

#include "app/write/draft_file.h"
#include "common/script/shapes.h"
#include "tests/app/write/library_fixture.h"
#include "tests/app/write/write_scenes.h"

#include <QDateTime>
#include <QLineEdit>
#include <QVBoxLayout>

namespace vh::write::testing
{

namespace
{

Instant noonOf(QDate day)
{
    return Instant{Millis{QDateTime(day, QTime(12, 0)).toMSecsSinceEpoch()}};
}

HeldClass heldOn(QDate day, const char* file, const char* title, const char* theme, int tookSeconds)
{
    return {{day, QStringLiteral("bundled:") + file, title, theme}, Millis(1'190'000), Millis(tookSeconds * 1000), {}};
}

} // namespace

WriteHere::WriteHere(std::vector<WriteGroup> groups) : m_clock(noonOf(kSceneDay))
{
    const QString content = QStringLiteral(VH_SOURCE_DIR "/content/classes");
    static const QTemporaryDir index; // what ships is read once for all rooms
    fill(groups);
    m_library = std::make_unique<ClassLibrary>(
        LibraryFolders{content, m_folder.filePath("Voicehall classes"), index.filePath("classes.index")});
    m_ready = settle(*m_library);
    m_control = std::make_unique<WriteControl>(WriteSetup{&m_clock, m_folder.path(), m_library.get(), std::move(groups),
                                                          nullptr, nullptr, sound::DeviceChoice::nothing(),
                                                          m_folder.filePath("papers")});
    QSignalSpy settled(m_library.get(), &ClassLibrary::settled);
    m_ready = m_ready && (m_library->isSettled() || settled.wait(20'000));
    room().resize(1366, 700);
}

QString WriteHere::own(const QString& name) const
{
    return m_folder.filePath("Voicehall classes/" + name);
}

void WriteHere::fill(const std::vector<WriteGroup>& groups)
{
    (void)put(own("first-ice.yaml"), classFile("First ice on the canal", "Ice", "Who goes first, and who goes far?"));
    (void)put(own("market-day.yaml"), classFile("Market day", "Market", "What do you carry home in your basket?"));
    (void)put(own("unfinished.yaml"),
              "title: Garden gates\ntheme: Gates\nminutes: many\nsections:\n  - kind: phrase\n");
    const ClassScript keys = laidOut(ClassShape::steadyClimb, {"Old keys", {"key", "lock", "door"}, 20, 3, {}});
    (void)put(own("old-keys.yaml.draft"), bytesOf(Draft{keys, {}, {}, 0}));
    ClassDays days;
    days.keep(heldOn(kSceneDay.addDays(-8), "kite-hill.yaml", "A windy day on Kite Hill", "Kites", 1150));
    days.keep(heldOn(kSceneDay.addDays(-7), "slow-train.yaml", "The slow train", "Trains", 1214));
    days.keep(heldOn(kSceneDay.addDays(-5), "soup-pots.yaml", "Seven kitchens", "Food of many kitchens", 1241));
    days.keep(heldOn(kSceneDay.addDays(-1), "bread-before-dawn.yaml", "Bread before dawn", "Bread", 1203));
    (void)days.plan({kSceneDay, "bundled:down-the-river.yaml", "Down the river", "River"});
    (void)days.plan({kSceneDay, "own:first-ice.yaml", "First ice on the canal", "Ice"});
    (void)days.plan({kSceneDay.addDays(1), "bundled:night-sky.yaml", "Under the night sky", "Night sky"});
    (void)days.plan({kSceneDay.addDays(2), "own:long-gone.yaml", "Ferns", "Ferns"});
    (void)days.plan({kSceneDay.addDays(6), "bundled:kite-hill.yaml", "A windy day on Kite Hill", "Kites"});
    (void)DaysFile(m_folder.path(), groups.empty() ? GroupId{} : groups.front().id).save(days);
}

void choose(WriteHere& here, const QString& head)
{
    auto* list = here.room().shown()->findChild<RowList*>();
    for (int i = 0; i < static_cast<int>(list->state().rows.size()); ++i)
        if (const RowList::Row& row = list->state().rows[static_cast<std::size_t>(i)]; row.head == head)
            return list->setCurrentIndex(list->model()->index(i, 0));
    qFatal("no row is called %s", qPrintable(head));
}

/// A room in one of its states.
class Shown : public QWidget
{
public:
    explicit Shown(const std::function<void(WriteHere&)>& arrange)
    {
        if (!m_here.isReady())
            qFatal("the library does not settle");
        auto* box = new QVBoxLayout(this);
        box->setContentsMargins(0, 0, 0, 0);
        box->addWidget(&m_here.room());
        arrange(m_here);
    }

private:
    WriteHere m_here;
};

} // namespace vh::write::testing

namespace vh::testing
{

std::vector<WriteScene> libraryScenes()
{
    using write::testing::choose;
    using write::testing::WriteHere;
    std::vector<WriteScene> scenes;
    const auto scene = [&](const char* name, const std::function<void(WriteHere&)>& arrange) {
        scenes.push_back({name, [arrange] { return std::make_unique<write::testing::Shown>(arrange); }});
    };
    const auto type = [](WriteHere& here, const char* words) {
        emit here.room().library().searchRequested(QString::fromLatin1(words));
    };
    scene("library", [](WriteHere&) {});
    scene("found", [type](WriteHere& here) { type(here, "windy"); });
    scene("said", [type](WriteHere& here) { type(here, "basket"); });
    scene("nothing-found", [type](WriteHere& here) { type(here, "basket xylophone"); });
    scene("own", [](WriteHere& here) { choose(here, "Market day"); });
    scene("broken", [](WriteHere& here) { choose(here, "unfinished"); });
    scene("draft", [](WriteHere& here) { choose(here, "Old keys"); });
    scene("renaming", [](WriteHere& here) {
        choose(here, "Market day");
        emit here.room().library().renameRequested();
        for (auto* edit : here.room().library().findChildren<QLineEdit*>())
            edit->deselect(); // as after the first letter
    });
    scene("put-aside", [](WriteHere& here) {
        choose(here, "Market day");
        emit here.room().library().putAsideRequested();
    });
    scene("days", [](WriteHere& here) { here.control().toDays(); });
    scene("day-held", [](WriteHere& here) {
        here.control().toDays();
        choose(here, "Bread before dawn");
    });
    scene("day-used-lately", [](WriteHere& here) {
        here.control().toDays();
        emit here.room().days().turnRequested(2);
        choose(here, "A windy day on Kite Hill");
    });
    scene("placing", [type](WriteHere& here) {
        type(here, "kite hill");
        emit here.room().library().planRequested();
    });
    scene("for-a-day", [](WriteHere& here) {
        here.control().toDays();
        emit here.room().days().planRequested();
    });
    scene("taken-off", [](WriteHere& here) {
        here.control().toDays();
        choose(here, "Under the night sky");
        emit here.room().days().takeOffRequested();
    });
    return scenes;
}

} // namespace vh::testing
