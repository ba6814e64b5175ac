// Two hundred and more files that should not be, given to the real process in the build that has 64 MB more than it has
// at its start, and no byte beyond: none breaks it, and none brings anything along but pixels.
#include "server/photos/picture_maker.h"
#include "tests/server/photos/picture_files.h"

#include <QtTest>

#include <future>
#include <random>

using namespace vh::photos;

namespace
{

struct Hostile {
    std::string name;
    Bytes bytes;
};

std::vector<Hostile> corpus()
{
    std::vector<Hostile> all;
    std::mt19937 random(20'251);
    const std::vector<std::pair<std::string, Bytes>> good{
        {"jpeg", withMetadata(writeJpeg(grainy(120, 90, 1), 85))},
        {"png", pngWithMetadata(writePng(grainy(60, 50, 2)))},
        {"progressive", withMetadata(progressive(grainy(120, 90, 3), 0))},
        {"interlaced", pngWithMetadata(interlaced(grainy(60, 50, 4)))}};
    for (const auto& [name, file] : good) {
        all.push_back({name, file});
        for (int i = 1; i < 20; ++i) {
            Bytes shorter = file;
            shorter.resize(file.size() * static_cast<std::size_t>(i) / 20);
            all.push_back({name + " cut at " + std::to_string(i * 5) + " %", shorter});
        }
        for (int i = 0; i < 30; ++i) {
            Bytes spoilt = file;
            for (int flips = 0; flips <= i / 3; ++flips)
                spoilt[3 + random() % (spoilt.size() - 3)] = static_cast<std::uint8_t>(random());
            all.push_back({name + " spoilt " + std::to_string(i), spoilt});
        }
    }
    for (const int edge : {1601, 8000, 16'384, 19'999, 32'767, 65'500}) {
        all.push_back({"jpeg that says it is " + std::to_string(edge), jpegThatSaysItIs(edge, edge)});
        all.push_back({"png that says it is " + std::to_string(edge), pngThatSaysItIs(edge, edge)});
        all.push_back({"thin jpeg " + std::to_string(edge), jpegThatSaysItIs(edge, 1)});
        all.push_back({"thin png " + std::to_string(edge), pngThatSaysItIs(1, edge)});
    }
    for (const int edge : {5000, 7000})
        all.push_back({"plain png that is " + std::to_string(edge), plainPng(edge, edge)});
    for (const int scans : {29, 31, 44})
        all.push_back({std::to_string(scans) + " scans", progressive(grainy(300, 200, 5), scans)});
    all.push_back({"large, in passes", progressive(motley(4000, 3000), 0)});
    all.push_back({"large, interlaced", interlaced(motley(3400, 3400))});
    all.push_back({"large", writeJpeg(motley(7000, 7000), 60)});
    all.push_back({"four inks", fourInks(50, 50)});
    for (const std::string_view words : {"", "GIF89a", "%PDF-1.4", "<html>", "BM", "RIFF....WEBP",
                                         "\x7F"
                                         "ELF",
                                         "PK\3\4"})
        all.push_back({"begins with " + std::string(words), Bytes(words.begin(), words.end())});
    return all;
}

} // namespace

class TestHostilePictures : public QObject
{
    Q_OBJECT
private slots:
    void noneBreaksItNoneBringsAnythingAlong()
    {
        const std::vector<Hostile> all = corpus();
        QVERIFY(all.size() >= 200);
        PictureMaker maker(VH_PHOTOS_BREAKING);
        const auto made = [&](const Bytes& bytes) {
            std::promise<vh::Result<Remade>> answer;
            if (!maker.submit(
                    bytes, {}, [&](const vh::Result<Remade>& remade) { answer.set_value(remade); },
                    [](const std::function<void()>& run) { run(); }))
                qFatal("not taken");
            return answer.get_future().get();
        };
        int shown = 0;
        for (const Hostile& one : all) {
            const auto remade = made(one.bytes);
            QVERIFY2(remade || remade.error().code != "picture-unmade", one.name.c_str());
            QVERIFY2(remade || !remade.error().message.empty(), one.name.c_str());
            if (!remade)
                continue;
            ++shown;
            for (const std::string_view trace : kTraces)
                QVERIFY2(!holds(remade->bytes, trace), one.name.c_str());
        }
        QCOMPARE(maker.counts().broken, 0U);
        QVERIFY2(shown >= 8, "some of them are pictures");
        qInfo("%zu files, %d of them shown", all.size(), shown);
    }
};

QTEST_APPLESS_MAIN(TestHostilePictures)
#include "test_hostile_pictures.moc"
