// What must hold on every screen of the participant, at every size of window and text, light and dark: all words are
// seen, controls are large and apart, colours are readable.
#include "app/first_room.h"
#include "app/join/join_room.h"
#include "app/look/look.h"
#include "common/script/reader.h"
#include "tests/app/join/scenes.h"
#include "tests/app/look/paint_record.h"
#include "tests/app/widgets/fits.h"
#include "tests/app/widgets/plain_words.h"

#include <QDirIterator>
#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

constexpr QSize kWindows[] = {{1366, 700}, {1280, 720}, {1920, 1080}};

using Shown = std::pair<QString, std::unique_ptr<QWidget>>;

link::Membership known(const char* name, Role role, const char* group = "Lakeside voices")
{
    link::Membership one;
    one.name = name;
    one.role = role;
    one.groupName = group;
    return one;
}

std::vector<Shown> firstRooms()
{
    std::vector<link::Membership> many{known("Bartholomea von Hohenstein-Lichtenberg", Role::leader,
                                             "The singing and speaking group of the Northern Harbour community house"),
                                       known("Ruth", Role::participant)};
    for (const char* name : {"Bram", "Odile", "Piet", "Ines", "Rolf", "Marta"})
        many.push_back(known(name, Role::moderator));
    std::vector<Shown> rooms;
    for (const std::size_t count : {0, 1, 2, 6, 8}) {
        auto room = std::make_unique<FirstRoom>();
        room->setState(firstViewOf({many.begin(), many.begin() + static_cast<std::ptrdiff_t>(count)}));
        rooms.emplace_back(QStringLiteral("first room, %1 known").arg(count), std::move(room));
    }
    return rooms;
}

std::vector<Shown> allScreens()
{
    std::vector<Shown> screens = firstRooms();
    for (const Scene& scene : joinScenes()) {
        SceneClass here;
        JoinModel model;
        scene.arrange(model, here);
        auto room = std::make_unique<JoinRoom>();
        room->setState(model.view(&here.follow));
        room->setHeard(model.voices().isHeard());
        screens.emplace_back(scene.name, std::move(room));
    }
    return screens;
}

void show(QWidget& screen, QSize window)
{
    screen.resize(window);
    screen.show();
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents();
}

/// A field in which somebody writes more than it shows paints the lines above those that are seen, too.
void leaveOutWhatFollowsTheCursor(const QWidget& screen)
{
    for (auto* field : screen.findChildren<QPlainTextEdit*>())
        if (field->verticalScrollBar()->maximum() > 0) {
            const QSignalBlocker quiet(field);
            field->clear();
        }
}

bool isSpoken(const Round& round)
{
    return std::any_of(round.turns.begin(), round.turns.end(),
                       [](const Turn& turn) { return turn.kind == TurnKind::withMe || turn.kind == TurnKind::yours; });
}

struct Text {
    std::string words;
    bool said = false; ///< by the participants; else it is only read
};

/// Of each class the eight longest texts.
std::vector<Text> longestTexts()
{
    std::vector<Text> all;
    QDirIterator files(QStringLiteral(VH_SOURCE_DIR "/content/classes"), {"*.yaml"}, QDir::Files);
    while (files.hasNext()) {
        QFile file(files.next());
        if (!file.open(QIODevice::ReadOnly))
            qFatal("a class cannot be read");
        const auto script = readClassScript(file.readAll().toStdString(), file.fileName().toStdString());
        std::vector<Text> texts;
        for (const Section& section : script.value().sections)
            for (const vh::Step& step : section.steps)
                texts.push_back({step.text, std::any_of(step.rounds.begin(), step.rounds.end(), isSpoken)});
        std::sort(texts.begin(), texts.end(),
                  [](const auto& a, const auto& b) { return a.words.size() > b.words.size(); });
        all.insert(all.end(), texts.begin(), texts.begin() + 8);
    }
    return all;
}

QString sizeName(look::TextSize size)
{
    return size == look::TextSize::usual ? "usual" : size == look::TextSize::larger ? "larger" : "largest";
}

} // namespace

class TestEveryScreen : public QObject
{
    Q_OBJECT
private:
    int m_wrong = 0;

    void note(const QString& screen, const QString& where, const QStringList& findings)
    {
        for (const QString& each : findings)
            qInfo().noquote() << screen << where << ':' << each;
        m_wrong += static_cast<int>(findings.size());
    }

private slots:
    void init() { m_wrong = 0; }

    void allWordsAreSeenAndControlsAreLargeAndApart()
    {
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            for (const auto& [name, screen] : allScreens()) {
                for (const QSize window : kWindows) {
                    show(*screen, window);
                    const QString where =
                        QStringLiteral("%1x%2 %3").arg(window.width()).arg(window.height()).arg(sizeName(size));
                    if (screen->size() != window)
                        note(name, where, {QStringLiteral("needs %1x%2").arg(screen->width()).arg(screen->height())});
                    note(name, where, tooLittleRoomIn(*screen));
                    note(name, where, tooSmallOrCloseIn(*screen));
                    leaveOutWhatFollowsTheCursor(*screen);
                    note(name, where, cutOffIn(*screen));
                    note(name, where, scrolledAwayIn(*screen));
                }
            }
        }
        QCOMPARE(m_wrong, 0); // each is named above
    }

    void everyTextOfTheClassesThatShipIsSeenWhole()
    {
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            for (const QSize window : {kWindows[0], kWindows[1]}) {
                JoinRoom room;
                room.resize(window);
                room.show();
                for (const Text& text : longestTexts()) {
                    ClassView view;
                    view.sheet.text.text = text.words;
                    view.sheet.text.limits.whole = 24;
                    view.showMeter = text.said;
                    view.sheet.cue.turn = TurnKind::yours;
                    view.sheet.picture = QImage(400, 400, QImage::Format_RGB32); // gives way to the text
                    view.sheet.picture.fill(Qt::lightGray);
                    view.calmWords = "Stop if it hurts.";
                    room.setState(view);
                    QApplication::processEvents();
                    QApplication::processEvents();
                    QStringList findings = tooLittleRoomIn(room) + cutOffIn(room);
                    if (const auto* shown = room.currentWidget()->findChild<FittedText*>();
                        text.said && shown->lines().pixelSize < look::kSmallestClassText)
                        findings.append(shown->accessibleName() + " is too small to be said");
                    for (const QString& each : findings)
                        qInfo().noquote() << window << sizeName(size) << ':' << each;
                    m_wrong += static_cast<int>(findings.size());
                }
            }
        }
        QCOMPARE(m_wrong, 0);
    }

    void noWordIsOfAProgramForCalls()
    {
        QVERIFY(look::Look(look::Ground::light, look::TextSize::usual).applyTo(*qApp));
        for (const auto& [name, screen] : allScreens())
            note(name, {}, borrowedWordsIn(*screen));
        QCOMPARE(m_wrong, 0); // each is named above
    }

    void whateverIsPaintedIsAPairOfColoursThatWasChecked()
    {
        for (const auto ground : {look::Ground::light, look::Ground::dark}) {
            QVERIFY(look::Look(ground).applyTo(*qApp));
            for (const auto& [name, screen] : allScreens()) {
                show(*screen, kWindows[0]);
                note(name, ground == look::Ground::dark ? "dark" : "light", unlistedPairsIn(*screen));
            }
        }
        QCOMPARE(m_wrong, 0); // each is named above
    }
};

QTEST_MAIN(TestEveryScreen)
#include "test_every_screen.moc"
