// A class made ready for the homes, and a class file as it is chosen.
#include "app/lead/class_choice.h"
#include "app/lead/publish.h"
#include "common/base/text.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QImage>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

using namespace vh;
using namespace vh::lead;

namespace
{

ClassScript scriptWith(const std::vector<std::string>& files)
{
    ClassScript script{"Bread", "Baking", "en", 1, {}};
    Section section{SectionKind::opening, "Morning", {}};
    for (const std::string& file : files) {
        Step step;
        step.text = "Good morning.";
        step.picture = Picture{file, "A loaf on a board."};
        step.rounds = {{false, {{TurnKind::listen, Millis{5000}}}}};
        section.steps.push_back(step);
    }
    script.sections.push_back(section);
    return script;
}

QImage imageOf(const Part& part)
{
    return QImage::fromData(QByteArray(part.bytes.data(), static_cast<qsizetype>(part.bytes.size())), "PNG");
}

} // namespace

class TestPublish : public QObject
{
    Q_OBJECT
    QTemporaryDir m_folder;

    void write(const QString& name, const QByteArray& bytes)
    {
        QFile file(m_folder.filePath(name));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        write("loaf.svg", "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 400 200'>"
                          "<rect width='400' height='200' fill='#8a5a2b'/></svg>");
    }

    void aDrawingBecomesAPngNamedByItsHash()
    {
        const auto published = publish(scriptWith({"loaf.svg"}), m_folder.path());
        QVERIFY(published.has_value());
        QCOMPARE(published->parts.size(), 2U);
        const Part& picture = published->parts[1];
        const QByteArray bytes(picture.bytes.data(), static_cast<qsizetype>(picture.bytes.size()));
        // Another implementation of SHA-256 (FIPS 180-4) than the one that named it.
        const QByteArray hash = QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex();
        QCOMPARE(QByteArray::fromStdString(published->script.sections[0].steps[0].picture->file), hash + ".png");
        const QImage image = imageOf(picture);
        QCOMPARE(image.size(), QSize(640, 320)); // the longest edge, in the drawing's proportions
        QCOMPARE(image.pixelColor(320, 160), QColor("#8a5a2b"));
    }

    void theScriptComesFirstAndReadsAsTheHomesReadIt()
    {
        const auto published = publish(scriptWith({"loaf.svg"}), m_folder.path());
        const auto script = wire::decodeScript(published->parts.front().bytes);
        QVERIFY(script.has_value());
        QCOMPARE(*script, published->script);
        QCOMPARE(wire::sha256(published->parts.front().bytes), published->parts.front().hash);
    }

    void onePictureTwiceIsOnePart()
    {
        const auto published = publish(scriptWith({"loaf.svg", "loaf.svg"}), m_folder.path());
        QCOMPARE(published->parts.size(), 2U);
        QCOMPARE(published->script.sections[0].steps[0].picture->file,
                 published->script.sections[0].steps[1].picture->file);
    }

    void aPhotographIsMadeToFitOneMessage()
    {
        QImage noise(1600, 1200, QImage::Format_RGB32); // the hardest there is to compress
        QRandomGenerator random(7);
        for (int y = 0; y < noise.height(); ++y)
            for (int x = 0; x < noise.width(); ++x)
                noise.setPixel(x, y, random.generate() | 0xff000000U);
        QVERIFY(noise.save(m_folder.filePath("noise.png")));
        const auto published = publish(scriptWith({"noise.png"}), m_folder.path());
        QVERIFY(published.has_value());
        const Part& picture = published->parts[1];
        QVERIFY(picture.bytes.size() <= kMostPartBytes);
        QVERIFY((picture.bytes.size() + 2) / 3 * 4 + 512 < wire::kLeaderMessage);
        const QImage image = imageOf(picture);
        QVERIFY(image.width() > 150);
        QVERIFY(qAbs(image.width() * 3 - image.height() * 4) <= 4);
    }

    void aSmallPictureIsNotBlownUp()
    {
        QImage small(60, 40, QImage::Format_RGB32);
        small.fill(Qt::blue);
        QVERIFY(small.save(m_folder.filePath("small.png")));
        QCOMPARE(imageOf(publish(scriptWith({"small.png"}), m_folder.path())->parts[1]).size(), QSize(60, 40));
    }

    void aPictureThatIsNoneIsNamed_data()
    {
        QTest::addColumn<QString>("file");
        QTest::newRow("missing") << "nowhere.svg";
        QTest::newRow("not a drawing") << "text.svg";
        QTest::newRow("not a picture") << "text.png";
    }
    void aPictureThatIsNoneIsNamed()
    {
        QFETCH(QString, file);
        if (file.startsWith("text"))
            write(file, "Good morning.");
        const auto published = publish(scriptWith({file.toStdString()}), m_folder.path());
        QVERIFY(!published.has_value());
        QCOMPARE(published.error().code, std::string("picture-unreadable"));
        QCOMPARE(published.error().where, file.toStdString());
    }

    void theBundledClassesCanBePublished()
    {
        const QString folder = VH_SOURCE_DIR "/content/classes";
        ClassChoice choice;
        choice.offerFolder(folder);
        QVERIFY(!choice.view().files.empty());
        const auto files = choice.view().files;
        for (const ClassFile& file : files) {
            choice.choose(file.path);
            QVERIFY2(choice.script(), qPrintable(file.path));
            QVERIFY2(publish(*choice.script(), choice.folder()).has_value(), qPrintable(file.path));
        }
    }

    void aChosenClassSaysWhatIsInIt()
    {
        ClassChoice choice;
        choice.choose(VH_SOURCE_DIR "/content/classes/lakeside-plots.yaml");
        QCOMPARE(choice.view().title, QString("A morning at the lakeside plots"));
        QCOMPARE(choice.view().chosen, 0);
        QCOMPARE(choice.view().sections.size(), static_cast<qsizetype>(choice.script()->sections.size()));
        QVERIFY(choice.view().mistakes.empty());
    }

    void everyMistakeOfAFileIsListedWithItsRemedy()
    {
        write("bad.yaml", "title: Bread\ntheme: Baking\nlanguage: en\nminutes: many\nsections:\n  - kind: phrase\n"
                          "    title: Loaves\n    steps:\n      - text: Warm.\n        seconds: 5\n");
        ClassChoice choice;
        choice.choose(m_folder.filePath("bad.yaml"));
        QVERIFY(!choice.script());
        QVERIFY(choice.view().title.isEmpty());
        QCOMPARE(choice.view().mistakes.size(), 2U);
        QCOMPARE(choice.view().mistakes[0].where, QString("line 4"));
        QVERIFY(!choice.view().mistakes[0].remedy.isEmpty());
        QCOMPARE(choice.view().mistakes[1].where, QString("line 6"));
        QVERIFY(choice.view().mistakes[1].remedy.contains("phrases"));
    }

    void aFileThatIsNotThereIsSaid()
    {
        ClassChoice choice;
        choice.choose(m_folder.filePath("nowhere.yaml"));
        QCOMPARE(choice.view().mistakes.size(), 1U);
    }
};

QTEST_GUILESS_MAIN(TestPublish)
#include "test_publish.moc"
