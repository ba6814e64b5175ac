// The reader of what is painted, against widgets whose faults are known.
#include "app/look/look.h"
#include "tests/app/look/paint_record.h"

#include <QApplication>
#include <QLabel>
#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

class Painted : public QWidget
{
public:
    explicit Painted(std::function<void(QPainter&)> paint) : m_paint(std::move(paint))
    {
        resize(400, 120);
        show();
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        QPainter painter(this);
        painter.fillRect(rect(), look::Look::current().palette().sheet);
        painter.setFont(look::fontOfPixels(30));
        m_paint(painter);
    }

private:
    std::function<void(QPainter&)> m_paint;
};

} // namespace

class TestPaintRecord : public QObject
{
    Q_OBJECT
private:
    const look::Palette& m_own = look::paletteOf(look::Ground::light);

private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }

    void thePictureIsWhatTheScreenShows()
    {
        QLabel label("Good morning");
        label.resize(300, 60);
        label.show();
        Painted widget([&](QPainter& painter) {
            painter.setRenderHint(QPainter::Antialiasing);
            painter.setPen(QPen(m_own.deep2, 3));
            painter.setBrush(m_own.deep);
            painter.translate(20, 10);
            painter.drawRoundedRect(QRectF(0, 0, 120, 60), 12, 12);
            painter.setPen(m_own.onDeep);
            painter.drawText(QRectF(0, 0, 120, 60), Qt::AlignCenter, "You");
        });
        const QImage seen = widget.grab().toImage().convertToFormat(QImage::Format_RGB32);
        const QImage read = PaintRecord(widget).picture();
        int different = 0; // letters may fall on other fractions of a pixel
        for (int y = 0; y < seen.height(); ++y)
            for (int x = 0; x < seen.width(); ++x)
                different += std::abs(qGray(seen.pixel(x, y)) - qGray(read.pixel(x, y))) > 60;
        QVERIFY2(different < 20, qPrintable(QString::number(different)));
    }

    void wordsBeyondTheEdgeAreCutOffAndOthersAreNot()
    {
        Painted whole([&](QPainter& painter) {
            painter.setPen(m_own.ink);
            painter.drawText(QRectF(0, 0, 400, 60), Qt::AlignLeft | Qt::AlignVCenter, "Good morning");
        });
        QCOMPARE(cutOffIn(whole), QStringList());
        Painted wide([&](QPainter& painter) {
            painter.setPen(m_own.ink);
            painter.drawText(QPointF(300, 60), "Good morning");
        });
        QCOMPARE(cutOffIn(wide).size(), 1);
        Painted boxed([&](QPainter& painter) { // the widget has room; the box given to the words has not
            painter.setPen(m_own.ink);
            painter.drawText(QRectF(10, 10, 100, 20), Qt::AlignLeft | Qt::AlignTop, "Good morning");
        });
        QCOMPARE(cutOffIn(boxed).size(), 1);
        QLabel label("Good morning, everybody");
        label.resize(60, 30);
        label.show();
        QCOMPARE(cutOffIn(label).size(), 1);
    }

    void aPairThatNobodyCheckedIsFound()
    {
        Painted good([&](QPainter& painter) {
            painter.fillRect(QRect(0, 0, 200, 100), m_own.deep);
            painter.setPen(m_own.onDeep);
            painter.drawText(QPointF(20, 50), "You");
        });
        QCOMPARE(unlistedPairsIn(good), QStringList());
        Painted faint([&](QPainter& painter) {
            painter.setPen(m_own.line);
            painter.drawText(QPointF(20, 50), "You");
        });
        QVERIFY(unlistedPairsIn(faint).value(0).startsWith("\"You\""));
        Painted graphicAsText([&](QPainter& painter) { // 3:1 is enough for a bar, not for a word
            painter.fillRect(QRect(0, 0, 100, 20), m_own.stretch);
            painter.setPen(m_own.stretch);
            painter.drawText(QPointF(20, 80), "You");
        });
        QCOMPARE(unlistedPairsIn(graphicAsText).size(), 1);
        Painted foreign([](QPainter& painter) { painter.fillRect(QRect(0, 0, 100, 20), QColor("#3366CC")); });
        QVERIFY(unlistedPairsIn(foreign).value(0).startsWith("a shape"));
    }
};

QTEST_MAIN(TestPaintRecord)
#include "test_paint_record.moc"
