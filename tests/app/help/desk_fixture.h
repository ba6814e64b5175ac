#pragma once
// A desk with three lines to read, shown, and what it asks for in words. GUI thread.
#include "app/help/word_list.h"
#include "app/widgets/big_button.h"
#include "tests/app/help/desk_scenes.h"

#include <QFile>
#include <QTest>

namespace vh::testing
{

/// What the room asks for, each request as a few words.
class Asked : public QStringList
{
public:
    explicit Asked(help::DeskRoom& room)
    {
        const auto note = [this](const char* what) {
            return [this, what](quint64 id) { append(QString("%1 %2").arg(what).arg(id)); };
        };
        const auto say = [this](const char* what) {
            return [this, what](const QString& text) { append(QString("%1 %2").arg(what, text)); };
        };
        QObject::connect(
            &room, &help::DeskRoom::decisionRequested, &room, [this](quint64 item, wire::Decision decision) {
                const auto name = wire::WireNames<wire::Decision>::kNames[static_cast<std::size_t>(decision)];
                append(QString("%1 %2").arg(QString::fromStdString(std::string(name))).arg(item));
            });
        QObject::connect(&room, &help::DeskRoom::answerRequested, &room,
                         [this](quint64 item, bool toAll, const QString& text) {
                             append(QString("%1 %2 %3").arg(toAll ? "answerAll" : "answer").arg(item).arg(text));
                         });
        QObject::connect(
            &room, &help::DeskRoom::restRequested, &room,
            [this](PersonId, const QString& name, wire::Rest rest, const QString& reason) {
                const auto kind = wire::WireNames<wire::Rest>::kNames[static_cast<std::size_t>(rest)];
                append(QString("%1 %2 %3").arg(QString::fromStdString(std::string(kind)), name, reason).trimmed());
            });
        QObject::connect(&room, &help::DeskRoom::claimRequested, &room, [this](quint64 item, bool on) {
            claims.append(QString("%1%2").arg(on ? "+" : "-").arg(item));
        });
        QObject::connect(&room, &help::DeskRoom::takeBackRequested, &room, note("takeBack"));
        QObject::connect(&room, &help::DeskRoom::pictureOpenRequested, &room, note("open"));
        QObject::connect(&room, &help::DeskRoom::letInRequested, &room, note("letIn"));
        QObject::connect(&room, &help::DeskRoom::turnAwayRequested, &room, note("turnAway"));
        QObject::connect(&room, &help::DeskRoom::callTakeRequested, &room, note("take"));
        QObject::connect(&room, &help::DeskRoom::noticeRequested, &room, say("say"));
        QObject::connect(&room, &help::DeskRoom::attendRequested, &room, say("here"));
        QObject::connect(&room, &help::DeskRoom::sayRequested, &room, say("told"));
        QObject::connect(&room, &help::DeskRoom::actsRequested, &room, [this] { append("acts"); });
        QObject::connect(&room, &help::DeskRoom::repliesChanged, &room,
                         [this](const QStringList& replies) { append("replies " + replies.join('/')); });
    }
    [[nodiscard]] QString all() const { return join('|'); }
    QStringList claims;
};

template <class Widget>
Widget* named(help::DeskRoom& room, const QString& name)
{
    for (auto* each : room.findChildren<Widget*>())
        if (each->accessibleName() == name)
            return each;
    return nullptr;
}

inline BigButton* button(help::DeskRoom& room, const QString& words)
{
    for (auto* each : room.findChildren<BigButton*>())
        if (each->text() == words && each->isVisible())
            return each;
    return nullptr;
}

/// A desk with three lines to read, shown.
struct Desk {
    Desk()
    {
        comeIn(model);
        model.take(wire::OnDesk{true,
                                {deskLine(1, "Rolf", "Slugs.", 12), deskLine(2, "Edda", "The same?", 9),
                                 deskLine(3, "Kofi", "Yams.", 5)}},
                   kDeskNow);
        model.take(wire::DeskNow{}, kDeskNow);
        room.resize(1366, 700);
        show();
        room.show();
        room.activateWindow();
        toRead().setClock(clock);
        (void)QTest::qWaitForWindowActive(&room);
    }
    void show() { room.setState(model.view(kDeskNow)); }
    void take(const wire::ToClient& message)
    {
        model.take(message, kDeskNow);
        show();
    }
    help::WordList& toRead() { return room.toRead(); }
    [[nodiscard]] std::uint64_t chosen() { return toRead().chosen() ? toRead().chosen()->item : 0; }
    /// A key, long enough after the one before.
    void press(int key, QWidget* where = nullptr)
    {
        clock.advance(std::chrono::seconds(1));
        QTest::keyClick(where ? where : &toRead(), static_cast<Qt::Key>(key));
    }

    HandClock clock;
    help::DeskModel model;
    help::DeskRoom room;
};

struct DocRow {
    QString key;
    QString control;
};
/// The table of docs/moderating.md.
inline std::vector<DocRow> documented()
{
    QFile page(VH_SOURCE_DIR "/docs/moderating.md");
    std::vector<DocRow> rows;
    if (!page.open(QIODevice::ReadOnly))
        return rows;
    bool inTable = false;
    for (const QString& line : QString::fromUtf8(page.readAll()).split('\n')) {
        const QStringList cells = line.split('|');
        if (cells.size() == 5 && cells[1].trimmed() == "task")
            inTable = true;
        else if (inTable && cells.size() != 5)
            break;
        else if (inTable && !cells[1].startsWith("---"))
            rows.push_back({cells[2].trimmed(), cells[3].trimmed()});
    }
    return rows;
}

} // namespace vh::testing
