// The pictures that ship: there, described, small, and plain enough that any renderer of SVG Tiny 1.2 draws them the
// same. That each is drawn is tested where classes are published.
#include "tests/common/script/content_classes.h"

#include <QDir>
#include <QFileInfo>
#include <QXmlStreamReader>
#include <QtTest>

#include <algorithm>

using namespace vh;
using namespace vh::content;

namespace
{

/// Of 0xRRGGBB: red, pink or crimson, and strong enough to be seen as such.
bool isRed(int rgb)
{
    const double r = (rgb >> 16 & 255) / 255.0;
    const double g = (rgb >> 8 & 255) / 255.0;
    const double b = (rgb & 255) / 255.0;
    const double most = std::max({r, g, b});
    const double span = most - std::min({r, g, b});
    if (most != r || span < 0.3 * most)
        return false;
    const double hue = 60.0 * (g - b) / span; // -60..60, 0 is red, 30 orange
    return hue > -40.0 && hue < 20.0;
}

} // namespace

class TestContentPictures : public QObject
{
    Q_OBJECT

    static void eachPicture()
    {
        QTest::addColumn<QString>("path");
        const QDir folder(QString(kClasses) + "/pictures");
        for (const QString& name : folder.entryList(QDir::Files))
            QTest::newRow(qPrintable(name)) << folder.filePath(name);
    }

private slots:
    void redIsTold()
    {
        QVERIFY(isRed(0xCC0000) && isRed(0xB22222) && isRed(0xD94F70));
        QVERIFY(!isRed(0xB8860B) && !isRed(0x6B4525) && !isRed(0x6A2676) && !isRed(0x1D5B6C) && !isRed(0xFBF7EF));
    }

    void eachClassHasTwoOrMoreWithADescription_data() { eachClass(); }
    void eachClassHasTwoOrMoreWithADescription()
    {
        QFETCH(QString, path);
        QStringList descriptions;
        forEachStep(scriptAt(path), [&](const Section&, const Step& step, const std::string& place) {
            if (!step.picture)
                return;
            QVERIFY2(QFileInfo::exists(QFileInfo(path).path() + '/' + QString::fromStdString(step.picture->file)),
                     place.c_str());
            const QString description = QString::fromStdString(step.picture->description);
            QVERIFY2(description.split(' ').size() >= 8 && !descriptions.contains(description), place.c_str());
            descriptions << description;
        });
        QVERIFY(descriptions.size() >= 2);
    }

    void eachPictureIsInAClass()
    {
        QStringList shown;
        for (const QString& path : paths())
            forEachStep(scriptAt(path), [&](const Section&, const Step& step, const std::string&) {
                if (step.picture)
                    shown << QFileInfo(QString::fromStdString(step.picture->file)).fileName();
            });
        shown.sort();
        QCOMPARE(shown, QDir(QString(kClasses) + "/pictures").entryList(QDir::Files, QDir::Name));
    }

    void itIsSmallPlainAndDrawnFromShapesAlone_data() { eachPicture(); }
    void itIsSmallPlainAndDrawnFromShapesAlone()
    {
        static const QStringList kShapes{"svg",  "title",  "defs",    "linearGradient", "stop",    "g",
                                         "path", "circle", "ellipse", "rect",           "polygon", "line"};
        static const QStringList kReachingOut{"href", "style", "class", "filter", "mask", "clip-path", "src"};
        QFETCH(QString, path);
        const QByteArray bytes = bytesOf(path);
        QVERIFY(bytes.size() > 0 && bytes.size() < 8 * 1024);
        QXmlStreamReader xml(bytes);
        QStringList gradients;
        while (!xml.atEnd()) {
            xml.readNext();
            QVERIFY(!xml.isDTD() && !xml.isEntityReference() && !xml.isProcessingInstruction());
            if (!xml.isStartElement())
                continue;
            QVERIFY2(kShapes.contains(xml.name().toString()), xml.name().toUtf8());
            for (const QXmlStreamAttribute& each : xml.attributes()) {
                const QString name = each.name().toString();
                QVERIFY2(!kReachingOut.contains(name) && !name.startsWith("on"), name.toUtf8());
                if (name == "id")
                    gradients << each.value().toString();
                const QString value = each.value().toString();
                if (value.startsWith("url("))
                    QVERIFY2(gradients.contains(value.mid(5).chopped(1)), value.toUtf8());
                if (name == "fill" || name == "stroke" || name == "stop-color")
                    checkColour(value);
            }
        }
        QVERIFY2(!xml.hasError(), xml.errorString().toUtf8());
    }

    static void checkColour(const QString& value)
    {
        if (value == "none" || value.startsWith("url(#"))
            return;
        bool number = false;
        const int rgb = value.mid(1).toInt(&number, 16);
        QVERIFY2(value.startsWith('#') && value.size() == 7 && number, value.toUtf8());
        QVERIFY2(!isRed(rgb), value.toUtf8());
    }
};

QTEST_GUILESS_MAIN(TestContentPictures)
#include "test_content_pictures.moc"
