// The people as a table: a well-behaved model, rows that keep their place, driven by keys.
#include "app/look/look.h"
#include "app/widgets/seat_table.h"

#include <QAbstractItemModelTester>
#include <QAccessible>
#include <QApplication>
#include <QHeaderView>
#include <QSignalSpy>
#include <QtTest>

using namespace vh;

namespace
{

SeatRow rowOf(int seat, const QString& name, Standing standing = Standing::notYet,
              std::optional<float> over = std::nullopt)
{
    SeatRow row;
    row.seat = seat;
    row.name = name;
    row.standing = standing;
    row.overUsualDb = over;
    return row;
}

QStringList namesOf(const QAbstractItemModel& model)
{
    QStringList names;
    for (int row = 0; row < model.rowCount(); ++row)
        names << model.index(row, SeatTableModel::nameColumn).data().toString();
    return names;
}

} // namespace

class TestSeatTable : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }

    void theModelBehavesThroughAWholeClass()
    {
        SeatTableModel model;
        const QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::QtTest);
        model.setState({rowOf(3, "Ines"), rowOf(1, "Odile")});
        model.setState({rowOf(1, "Odile", Standing::inBand, 5.0F), rowOf(2, "Bram"), rowOf(3, "Ines")});
        model.setState({rowOf(2, "Bram"), rowOf(7, "Wim"), rowOf(9, "Zora")});
        model.setState({});
        model.setState({rowOf(0, "Rolf")});
        QCOMPARE(namesOf(model), QStringList{"Rolf"});
    }

    void whoIsHeardByAllIsMarkedAndSaidSo()
    {
        SeatTable table;
        table.resize(560, 300);
        table.setState({rowOf(0, "Rolf"), rowOf(1, "Ines")});
        table.show();
        const QImage before = table.grab().toImage();
        SeatRow ines = rowOf(1, "Ines");
        ines.heard = HeardByAll::yes;
        table.setState({rowOf(0, "Rolf"), ines});
        QVERIFY(table.grab().toImage() != before);
        const QModelIndex name = table.model()->index(1, SeatTableModel::nameColumn);
        QCOMPARE(name.data().toString(), "Ines");
        QCOMPARE(name.data(Qt::AccessibleTextRole).toString(), "Ines, heard by all");
    }

    void rowsStandByTheirSeatsWhateverTheStandings()
    {
        SeatTableModel model;
        model.setState({rowOf(2, "Bram", Standing::below, 0.5F), rowOf(0, "Odile", Standing::above, 14.0F),
                        rowOf(1, "Ines", Standing::inBand, 6.0F)});
        QCOMPARE(namesOf(model), (QStringList{"Odile", "Ines", "Bram"}));
        model.setState(
            {rowOf(0, "Odile", Standing::below, 0.0F), rowOf(1, "Ines"), rowOf(2, "Bram", Standing::inBand, 7.0F)});
        QCOMPARE(namesOf(model), (QStringList{"Odile", "Ines", "Bram"}));
    }

    void arrangedOnceTheyKeepStillAgain()
    {
        SeatTable table;
        const auto* model = qobject_cast<SeatTableModel*>(table.model());
        table.setState({rowOf(0, "wim", Standing::inBand, 6.0F), rowOf(1, "Odile", Standing::below, 1.0F),
                        rowOf(2, "Ines", Standing::inBand, 4.0F), rowOf(3, "Bram", Standing::noVoice)});
        table.setCurrentIndex(table.model()->index(1, 0));
        QTest::keyClick(&table, Qt::Key_A);
        QCOMPARE(namesOf(*model), (QStringList{"Bram", "Ines", "Odile", "wim"}));
        QCOMPARE(table.currentIndex().row(), 2); // Odile stays chosen
        QCOMPARE(table.accessibleName(), QStringLiteral("People, by name"));
        QTest::keyClick(&table, Qt::Key_A);
        QCOMPARE(namesOf(*model), (QStringList{"Bram", "Odile", "wim", "Ines"})); // in band: by seat, not by level
        // Standings change and somebody comes in: nobody moves, the newcomer stands last.
        table.setState({rowOf(0, "wim", Standing::below, 1.0F), rowOf(1, "Odile", Standing::inBand, 5.0F),
                        rowOf(2, "Ines", Standing::noVoice), rowOf(3, "Bram", Standing::inBand, 5.0F),
                        rowOf(4, "Aart", Standing::noVoice)});
        QCOMPARE(namesOf(*model), (QStringList{"Bram", "Odile", "wim", "Ines", "Aart"}));
        QTest::keyClick(&table, Qt::Key_A);
        QCOMPARE(namesOf(*model), (QStringList{"wim", "Odile", "Ines", "Bram", "Aart"}));
    }

    void theHeadsOfTheColumnsArrangeToo()
    {
        SeatTable table;
        const auto* model = qobject_cast<SeatTableModel*>(table.model());
        table.setState({rowOf(0, "Wim"), rowOf(1, "Bram")});
        table.resize(500, 200);
        table.show();
        const auto click = [&](int column) {
            const auto* head = table.horizontalHeader();
            QTest::mouseClick(head->viewport(), Qt::LeftButton, {},
                              {head->sectionViewportPosition(column) + 8, head->height() / 2});
        };
        click(SeatTableModel::nameColumn);
        QCOMPARE(namesOf(*model), (QStringList{"Bram", "Wim"}));
        click(SeatTableModel::levelColumn); // never by level
        QCOMPARE(model->order(), SeatOrder::names);
        click(SeatTableModel::nameColumn);
        QCOMPARE(namesOf(*model), (QStringList{"Wim", "Bram"}));
    }

    void onlyWhatChangedIsSignalled()
    {
        SeatTableModel model;
        model.setState({rowOf(0, "Odile"), rowOf(1, "Ines"), rowOf(2, "Bram")});
        QSignalSpy changed(&model, &QAbstractItemModel::dataChanged);
        QSignalSpy inserted(&model, &QAbstractItemModel::rowsInserted);
        QSignalSpy removed(&model, &QAbstractItemModel::rowsRemoved);
        QSignalSpy reset(&model, &QAbstractItemModel::modelReset);
        model.setState({rowOf(0, "Odile"), rowOf(1, "Ines", Standing::inBand, 6.0F), rowOf(2, "Bram")});
        QCOMPARE(changed.count(), 1);
        QCOMPARE(changed.first().first().toModelIndex().row(), 1);
        model.setState({rowOf(0, "Odile"), rowOf(1, "Ines", Standing::inBand, 6.0F), rowOf(2, "Bram")});
        QCOMPARE(changed.count(), 1);
        QCOMPARE(inserted.count() + removed.count() + reset.count(), 0);
    }

    void twoRowsOfOneSeatAreOne()
    {
        SeatTableModel model;
        model.setState({rowOf(4, "Wim"), rowOf(4, "Vera")});
        QCOMPARE(namesOf(model), QStringList{"Vera"});
    }

    void cellsReadWellAloud()
    {
        SeatTableModel model;
        SeatRow unclear = rowOf(1, "Maren", Standing::cantTell);
        unclear.reason = Blank::roomTooNoisy;
        model.setState({rowOf(0, "Odile", Standing::inBand, 4.2F), unclear});
        const auto text = [&](int row, int column, int role) { return model.index(row, column).data(role).toString(); };
        QCOMPARE(text(0, SeatTableModel::standingColumn, Qt::DisplayRole), QStringLiteral("easy to hear"));
        QCOMPARE(text(0, SeatTableModel::levelColumn, Qt::DisplayRole), QStringLiteral("+4 dB"));
        QCOMPARE(text(0, SeatTableModel::levelColumn, Qt::AccessibleTextRole),
                 QStringLiteral("+4 dB over the usual level"));
        QCOMPARE(text(1, SeatTableModel::standingColumn, Qt::AccessibleTextRole),
                 QStringLiteral("can't tell: the room is loud"));
        QCOMPARE(text(1, SeatTableModel::levelColumn, Qt::DisplayRole), QString());
    }

    void theTableIsDrivenByKeysAndKeepsTheChosenPerson()
    {
        SeatTable table;
        table.setState({rowOf(1, "Odile"), rowOf(2, "Ines"), rowOf(5, "Bram")});
        table.show();
        QSignalSpy requested(&table, &SeatTable::seatRequested);
        table.setCurrentIndex(table.model()->index(0, 0));
        QTest::keyClick(&table, Qt::Key_Down);
        QTest::keyClick(&table, Qt::Key_Down);
        QCOMPARE(requested.count(), 0); // looking around asks for nothing
        QTest::keyClick(&table, Qt::Key_Return);
        QCOMPARE(requested.count(), 1);
        QCOMPARE(requested.first().first().toInt(), 5);
        // Somebody comes in before them: the same person stays chosen, and nothing is asked for.
        table.setState({rowOf(0, "Rolf"), rowOf(1, "Odile"), rowOf(2, "Ines"), rowOf(5, "Bram")});
        QCOMPARE(table.currentIndex().row(), 3);
        QCOMPARE(requested.count(), 1);
    }
};

QTEST_MAIN(TestSeatTable)
#include "test_seat_table.moc"
