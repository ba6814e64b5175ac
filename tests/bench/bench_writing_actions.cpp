// How many actions it takes to write a class: key presses that are no letters of the text, and presses of buttons, by
// real key events in the real room, from "New class" in the library to a class that is saved and in which a review
// finds nothing. The texts are those of classes that ship, without their marks; the class is laid out in the shape of
// the same, which is the leader's own last class. Three times: typed by the plain way (from step to step, each phrase
// marked, each remark mended by itself); typed by the ways that the editor offers; and with the texts given elsewhere,
// pasted as one piece.
#include "app/look/look.h"
#include "app/write/write_control.h"
#include "common/script/reader.h"
#include "common/script/shapes.h"
#include "tests/app/write/writing_hand.h"
#include "tests/bench/bench_figure.h"

#include <QClipboard>
#include <QDir>
#include <QFile>
#include <QRadioButton>
#include <QTemporaryDir>

#include <chrono>
#include <cstdlib>
#include <deque>
#include <map>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;

namespace
{

ClassScript shipped(const QString& name)
{
    QFile file(QStringLiteral(VH_SOURCE_DIR "/content/classes/%1.yaml").arg(name));
    if (!file.open(QIODevice::ReadOnly))
        std::abort();
    return readClassScript(file.readAll().toStdString(), name.toStdString()).value();
}

bool isSaid(const vh::Step& step)
{
    return step.rounds.size() > 1 || step.rounds.front().turns.size() > 1;
}

/// The texts that are to be written, by kind of section and by whether people say them, in the order of the class; more
/// from another class, where a layout has room for more.
class Texts
{
public:
    Texts(const ClassScript& first, const ClassScript& more)
    {
        for (const ClassScript& script : {first, more})
            for (const Section& section : script.sections)
                for (const vh::Step& step : section.steps)
                    m_texts[{section.kind, isSaid(step)}].push_back(step.text);
    }
    std::string next(SectionKind kind, bool said)
    {
        auto& texts = m_texts[{kind, said}];
        if (texts.empty())
            std::abort();
        std::string text = texts.front();
        texts.pop_front();
        return text;
    }

private:
    std::map<std::pair<SectionKind, bool>, std::deque<std::string>> m_texts;
};

struct Written {
    int actions = 0;
    int texts = 0;
    std::vector<double> letterMs{}; ///< from the key to the page painted anew, of each letter
};

enum class Way { plain, offered, pasted };

class RoomWriting
{
public:
    RoomWriting(const QString& name, const QString& more, Way way)
        : m_texts(shipped(name), shipped(more)), m_theme(shipped(name).theme),
          m_library({{}, m_folder.filePath("classes"), {}}), m_way(way)
    {
        QDir().mkpath(m_folder.filePath("classes"));
        QFile::copy(QStringLiteral(VH_SOURCE_DIR "/content/classes/%1.yaml").arg(name),
                    m_folder.filePath("classes/earlier.yaml"));
        m_room = std::make_unique<WriteControl>(WriteSetup{&m_clock, m_folder.path(), &m_library, {}});
        while (!m_library.isSettled())
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        m_room->room().resize(1366, 700);
        m_control = m_room->room().findChild<EditorControl*>();
    }

    Written run()
    {
        WritingHand hand(m_room->room());
        begin(hand);
        Written written;
        if (m_way == Way::pasted)
            written.texts = paste(hand);
        while (const auto next = toWrite()) {
            goTo(hand, *next);
            const ClassDocument& document = m_control->document();
            const auto text = QString::fromStdString(m_texts.next(document.section()->kind, isSaid(*document.step())));
            for (const QChar letter : text) {
                const auto before = std::chrono::steady_clock::now();
                hand.type(letter);
                const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - before;
                written.letterMs.push_back(took.count());
            }
            if (m_way == Way::plain && m_control->document().section()->kind == SectionKind::phrases)
                hand.key(Qt::Key_M, Qt::ControlModifier);
            else if (m_way == Way::offered && m_control->document().toWrite().size() > 0)
                hand.key(Qt::Key_Return);
            ++written.texts;
        }
        mend(hand);
        hand.key(Qt::Key_S, Qt::ControlModifier);
        const ClassDocument& document = m_control->document();
        for (const Remark& remark : document.remarks()) {
            std::printf("# left: %s\n", remark.why.c_str());
            std::exit(1);
        }
        written.actions = hand.presses();
        return written;
    }

private:
    /// From the library: a new class on this theme, in the shape of the last one.
    void begin(WritingHand& hand)
    {
        hand.key(Qt::Key_N, Qt::ControlModifier);
        hand.type(QString::fromStdString(m_theme));
        for (auto* shape : m_room->room().findChildren<QRadioButton*>())
            if (shape->isVisible() && shape->text().contains(QLatin1String("As in")))
                hand.click(*shape);
        hand.key(Qt::Key_Return);
        if (!m_control->page()->isVisible()) {
            std::printf("# no class was laid out\n");
            std::exit(1);
        }
    }

    /// All texts, as somebody has them in a letter, an empty line between them. How many they were.
    int paste(WritingHand& hand)
    {
        const ClassDocument& document = m_control->document();
        QStringList texts;
        for (const Spot& spot : document.toWrite())
            texts << QString::fromStdString(
                m_texts.next(sectionAt(document.script(), spot)->kind, isSaid(*stepAt(document.script(), spot))));
        QApplication::clipboard()->setText(texts.join(QStringLiteral("\n\n")));
        goTo(hand, *toWrite());
        hand.key(Qt::Key_V, Qt::ControlModifier);
        if (!document.toWrite().empty()) {
            std::printf("# not all that was pasted came in\n");
            std::exit(1);
        }
        return static_cast<int>(texts.size());
    }

    /// Where she stands, if that is still to write, else what comes next.
    [[nodiscard]] std::optional<Spot> toWrite() const
    {
        const ClassDocument& document = m_control->document();
        const vh::Step* here = document.step();
        return here && isToWrite(*here) ? document.spot() : document.nextToWrite();
    }

    void goTo(WritingHand& hand, const Spot& spot)
    {
        while (!(m_control->document().spot() == spot)) {
            if (m_way != Way::plain) {
                std::printf("# Enter did not lead to the next text\n");
                std::exit(1);
            }
            const Spot before = m_control->document().spot();
            hand.key(Qt::Key_PageDown, Qt::ControlModifier);
            if (m_control->document().spot() == before) {
                std::printf("# step %d of part %d cannot be reached from step %d of part %d\n", spot.step, spot.section,
                            before.step, before.section);
                std::exit(1);
            }
        }
    }

    void mend(WritingHand& hand)
    {
        const ClassDocument& document = m_control->document();
        if (m_way != Way::plain && !document.remarks().empty())
            return hand.key(Qt::Key_F9, Qt::ShiftModifier);
        while (!document.remarks().empty()) {
            const auto before = document.remarks().size();
            hand.key(Qt::Key_F8);
            hand.key(Qt::Key_F9);
            if (document.remarks().size() >= before)
                return;
        }
    }

    QTemporaryDir m_folder;
    Texts m_texts;
    std::string m_theme;
    SystemClock m_clock;
    ClassLibrary m_library;
    std::unique_ptr<WriteControl> m_room;
    EditorControl* m_control = nullptr;
    Way m_way;
};

} // namespace

int main(int argc, char** argv)
{
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication app(argc, argv);
    if (!look::Look{}.applyTo(app))
        return 1;
    bench::Figures figures;
    Written plain;
    Written offered;
    Written pasted;
    for (const char* name : {"soup-pots", "night-sky", "kite-hill"}) {
        const Written one = RoomWriting(name, "slow-train", Way::plain).run();
        const Written other = RoomWriting(name, "slow-train", Way::offered).run();
        const Written given = RoomWriting(name, "slow-train", Way::pasted).run();
        std::printf("# %s: %d texts, %d actions by the plain way, %d by the ways offered, %d pasted\n", name, one.texts,
                    one.actions, other.actions, given.actions);
        pasted.actions += given.actions;
        plain.actions += one.actions;
        plain.texts += one.texts;
        offered.actions += other.actions;
        offered.texts += other.texts;
        offered.letterMs.insert(offered.letterMs.end(), other.letterMs.begin(), other.letterMs.end());
    }
    figures.reported("writing_texts", offered.texts, "texts");
    figures.reported("writing_actions_plain", plain.actions, "actions");
    figures.reported("writing_actions", offered.actions, "actions");
    figures.reported("writing_actions_given_text", pasted.actions, "actions");
    figures.reported("writing_actions_given_text_saved", static_cast<double>(plain.actions) / pasted.actions, "times");
    figures.atLeast("writing_actions_saved", static_cast<double>(plain.actions) / offered.actions, "times", 2);
    figures.atMost("writing_actions_per_text", static_cast<double>(offered.actions) / offered.texts, "actions", 1.5);
    const bench::Spread letters = bench::spreadOf(offered.letterMs);
    bench::Figures::spread("writing_letter", letters, offered.letterMs.size());
    figures.atMost("writing_letter", letters.median, "ms", 33); // two frames of a screen of 60
    return figures.exitCode();
}
