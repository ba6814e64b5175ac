// Several hundred texts that should not hurt anybody (hostile_texts.h), through a real relay in every message that
// takes words from one person and shows them to another: nothing breaks, whatever is shown is fit to be shown by ICU's
// own data, whatever is not is refused in words or ends that line alone, and memory has a limit.
#include "server/hall/shown_text.h"
#include "tests/server/hall/hostile_texts.h"
#include "tests/server/hall/test_relay.h"

#include <QtTest>
#include <fstream>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unistd.h>

using namespace vh;
using namespace vh::testing;

namespace
{

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr bool kMemoryIsOurs = false; // the sanitizer keeps what was freed
#else
constexpr bool kMemoryIsOurs = true;
#endif

double residentMb()
{
    std::ifstream file("/proc/self/statm");
    double total = 0;
    double resident = 0;
    file >> total >> resident;
    return resident * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1e6;
}

constexpr std::string_view kHere = "TEXT";

/// A message in which kHere stands for the text.
std::string withText(std::string message, const HostileText& text)
{
    const std::string placed = "\"" + std::string(kHere) + "\"";
    return message.replace(message.find(placed), placed.size(), text.json);
}

} // namespace

class TestHostileTexts : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase()
    {
        m_group = m_relay.addGroup("Tuesday voices");
        m_kim = m_relay.enrol(m_group, Role::moderator, "Kim");
        m_bo = m_relay.enrol(m_group, Role::participant, "Bo");
        m_cy = m_relay.enrol(m_group, Role::participant, "Cy");
        m_dee = m_relay.enrol(m_group, Role::participant, "Dee");
        QVERIFY(m_texts.size() >= 200);
        m_before = residentMb();
    }
    void cleanupTestCase()
    {
        QVERIFY2(!m_cy->isClosed(), "whoever only listens has never lost the line");
        const double grown = residentMb() - m_before;
        qInfo("%zu texts; %d shown, %d refused, %d ended a line; the process grew by %.1f MB", m_texts.size(), m_shown,
              m_refused, m_closed, grown);
        QVERIFY(!kMemoryIsOurs || grown <= 64);
        for (Visitor* each : {&m_kim, &m_bo, &m_cy, &m_dee})
            *each = {};
    }

    /// shown_text's own tables are ICU's; this is the other way round: every code point there is, judged by properties.
    void anyCodePointInAWordIsFitToBeShown()
    {
        for (UChar32 point = 0; point <= UCHAR_MAX_VALUE; ++point) {
            if (U_IS_SURROGATE(point))
                continue;
            std::string text = "a";
            icu::UnicodeString(point).toUTF8String(text);
            text += "b";
            const auto shown = hall::shownText(text, 500, LineBreaks::keep);
            QVERIFY2(shown, qPrintable(QString::number(point, 16)));
            const std::string hurts = whatHurts(*shown, 500, true);
            QVERIFY2(hurts.empty(), hurts.c_str());
            if (u_isgraph(point) && !u_hasBinaryProperty(point, UCHAR_DEFAULT_IGNORABLE_CODE_POINT) &&
                (U_GET_GC_MASK(point) & (U_GC_CF_MASK | U_GC_CO_MASK)) == 0)
                QVERIFY2(*shown == text, qPrintable("what can be seen stays: " + QString::number(point, 16)));
        }
    }

    void whatIsWrittenAnsweredAndSaidToAll()
    {
        for (const HostileText& text : m_texts) {
            const auto written = say(m_bo, wire::Write{{}, std::string(kHere)}, text);
            const auto said = say(m_kim, wire::Notice{{}, std::string(kHere)}, text);
            QVERIFY2(written || !said, text.name.c_str()); // the same for everybody; a notice has less room on its way
            if (!written || !said)
                continue;
            const wire::DeskItem held = onDesk(m_kim, *written, wire::DeskState::held);
            fit(held.text, wire::kChatLength, true, text);
            fit(board(*said).text, wire::kNoticeLength, true, text);
            const auto reply = say(m_kim, wire::Reply{{}, *written, false, std::string(kHere)}, text);
            QVERIFY2(reply, text.name.c_str());
            const auto answer = m_bo->wait<wire::Answer>([&](const auto& each) { return each.item == *reply; });
            fit(answer.text, wire::kChatLength, true, text);
            QCOMPARE(answer.about, held.text);
        }
        QVERIFY2(m_shown > 200 && m_refused > 10 && m_closed > 10, "of every kind there are some");
    }

    void reasonsInTheLogAndToWhoeverIsOut()
    {
        const PersonId dee = m_dee.welcome.person;
        for (const HostileText& text : m_texts)
            say(m_kim, wire::SetRest{{}, dee, wire::Rest::none, std::string(kHere)}, text);
        m_kim->say(wire::ActsAsk{});
        for (const wire::Act& act : m_kim->wait<wire::Acts>().acts)
            if (!act.detail.empty())
                fit(act.detail, wire::kChatLength, true, {"in the log", {}});
        for (const char* begins : {"\\u202e", "\\ud83d\\ude00\\ud83d\\ude00", "H\\u0301\\u0301\\u0301\\u0301\\u0301"}) {
            std::string reason = std::string("\"") + begins;
            for (int i = 0; i < 40; ++i)
                reason += "\u6F22\u00E4.";
            QVERIFY(say(m_kim, wire::SetRest{{}, dee, wire::Rest::out, std::string(kHere)}, {"out", reason + "\""}));
            const Closing closing = m_dee->waitClosed(); // a close frame has room for 123 bytes (RFC 6455, 5.5)
            QVERIFY(closing.reason.size() <= 123 && closing.reason.size() > 100);
            fit(closing.reason, wire::kReasonLength, false, {"told to whoever is out", {}});
            m_kim->acked(wire::SetRest{RequestId::random(), dee, wire::Rest::none, {}});
            m_dee = m_relay.again(m_dee);
        }
    }

    void namesOfThoseWhoComeIn()
    {
        int came = 0;
        for (const HostileText& text : m_texts) {
            const auto line = m_relay.connect();
            const wire::Challenge challenge = line->hello();
            wire::Redeem redeem;
            redeem.token = m_relay.link(m_group, Role::participant);
            const wire::KeyPair keys = wire::makeKeyPair();
            redeem.key = keys.publicKey;
            redeem.signature = sign(
                keys, wire::loginText(wire::Purpose::redeem, hexOf(redeem.token), challenge.nonce, Role::participant));
            redeem.name = kHere;
            line->sayText(withText(wire::encode(redeem), text));
            const auto name = line->nameOrClosing();
            if (name) {
                ++came;
                fit(*name, wire::kNameLength, false, text);
            } else {
                ++m_closed;
                QVERIFY2(!line->waitClosed().reason.empty(), text.name.c_str());
            }
        }
        QVERIFY(came > 100);
    }

    void aNameThatOnlySeemsToBeAnothersIsMarked()
    {
        const std::string code = m_relay.codeOf(m_group);
        std::vector<std::unique_ptr<TestLine>> lines;
        for (const char* name : {"D\u200Dee", "D\u0435e", "D\u00A0ee", "\uFF24ee", "d\u034Fee\u2800"}) {
            lines.push_back(m_relay.connect());
            lines.back()->hello();
            lines.back()->knock(code, wire::makeKeyPair(), name);
        }
        const auto door = m_kim->wait<wire::Door>([](const wire::Door& each) { return each.waiting.size() == 5; });
        for (const wire::Waiting& waits : door.waiting)
            QVERIFY2(waits.like == "Dee", waits.name.c_str());
    }

private:
    void fit(const std::string& shown, std::size_t most, bool mayHaveLines, const HostileText& text)
    {
        ++m_shown;
        const std::string hurts = whatHurts(shown, most, mayHaveLines);
        QVERIFY2(hurts.empty(), (text.name + ": " + hurts).c_str());
    }

    /// The item that came of it; nothing: refused in words, or the line was ended with a reason, and is there again.
    template <class Message>
    std::optional<std::uint64_t> say(Visitor& who, Message message, const HostileText& text)
    {
        message.id = RequestId::random();
        who->sayText(withText(wire::encode(message), text));
        const auto outcome = who->waitOutcome(message.id);
        if (outcome.ack)
            return outcome.ack->item.value_or(0);
        if (outcome.refused) {
            ++m_refused;
            if (outcome.refused->message.empty() || outcome.refused->code.empty())
                QTest::qFail(text.name.c_str(), __FILE__, __LINE__);
            return std::nullopt;
        }
        ++m_closed;
        const auto code = static_cast<unsigned>(outcome.closed->code);
        if (code < 1007 || code > 1009 || outcome.closed->reason.empty())
            QTest::qFail(text.name.c_str(), __FILE__, __LINE__);
        who = m_relay.again(who);
        return std::nullopt;
    }

    wire::BoardItem board(std::uint64_t item)
    {
        return m_cy->wait<wire::Board>([&](const wire::Board& each) { return each.items.front().item == item; })
            .items.front();
    }

    GroupId m_group;
    TestRelay m_relay;
    Visitor m_kim, m_bo, m_cy, m_dee;
    const std::vector<HostileText> m_texts = hostileTexts();
    double m_before = 0;
    int m_shown = 0;
    int m_refused = 0;
    int m_closed = 0;
};

QTEST_GUILESS_MAIN(TestHostileTexts)
#include "test_hostile_texts.moc"
