// docs/protocol.md says what the code does: every message and field with its kind, the table of who may send what, the
// refusals, and the worked examples byte by byte.
#include "common/script/limits.h"
#include "common/wire/binary.h"
#include "common/wire/codec.h"
#include "common/wire/login_text.h"
#include "common/wire/protocol_table.h"
#include "common/wire/script_json.h"

#include <QDirIterator>
#include <QFile>
#include <QRegularExpression>
#include <QtTest>
#include <sodium.h>

using namespace vh;
using namespace vh::wire;

namespace
{

QString contentsOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

QString textOf(std::string_view text)
{
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

/// Lists a message's fields as the document's tables have them: name, and what its kind must begin with.
class Describer
{
public:
    QStringList rows;

    template <class T>
    void operator()(std::string_view name, const T&, Limit limit = {})
    {
        rows += textOf(name) + "|" + kindOf<T>(limit);
    }

private:
    template <class T>
    static QString kindOf(Limit limit)
    {
        if constexpr (isOptional<T>)
            return kindOf<typename T::value_type>(limit);
        else if constexpr (isVector<T>)
            return QStringLiteral("list %1 of ").arg(limit.most);
        else if constexpr (std::is_same_v<T, bool>)
            return "true or false";
        else if constexpr (std::is_enum_v<T>) {
            QStringList names;
            for (const auto each : WireNames<T>::kNames)
                names += textOf(each);
            return "one of " + names.join(", ");
        } else if constexpr (std::is_floating_point_v<T>)
            return "real";
        else if constexpr (std::is_integral_v<T>)
            return sizeof(T) == 8 ? (std::is_signed_v<T> ? "int (signed, 64 bits)" : "int (64 bits)") : "int";
        else if constexpr (std::is_same_v<T, std::string>)
            return QStringLiteral("text %1").arg(limit.most);
        else if constexpr (std::is_same_v<T, Instant>)
            return "time";
        else if constexpr (std::is_same_v<T, Millis>)
            return "ms";
        else if constexpr (isId<T>)
            return "id";
        else if constexpr (isBytes<T>)
            return QStringLiteral("bytes %1").arg(sizeof(T));
        else
            return {};
    }
};

QString hexOfFrame(const std::string& frame)
{
    return QString::fromLatin1(QByteArray::fromStdString(frame).toHex(' '));
}

/// The example column of one binary message, put together.
QString exampleOf(const QString& document, const QString& title)
{
    const QString section = document.section("**" + title, 1).section("\n**", 0, 0).section("\n\nA level", 0, 0);
    QStringList bytes;
    static const QRegularExpression kRow("^\\|[^|]*\\|[^|]*\\| `([0-9a-f ]+)`", QRegularExpression::MultilineOption);
    for (auto rows = kRow.globalMatch(section); rows.hasNext();)
        bytes += rows.next().captured(1);
    return bytes.join(' ');
}

} // namespace

class TestProtocolDocument : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase()
    {
        m_document = contentsOf(QStringLiteral(VH_SOURCE_DIR "/docs/protocol.md"));
        QVERIFY(m_document.size() > 10'000);
    }

    void everyMessageAndEveryFieldStandsInIt()
    {
        checkAll<ToRelay>();
        checkAll<ToClient>();
        QCOMPARE(m_document.count("\n### `"),
                 static_cast<int>(std::variant_size_v<ToRelay> + std::variant_size_v<ToClient>));
    }

    void theTableOfWhoMaySendWhatIsTheCodes()
    {
        static constexpr std::array<std::string_view, 3> kStages{"fresh", "greeted", "in"};
        QStringList expected;
        for (const Rule& rule : rulesForClients()) {
            QString stage = "any";
            if (!mayBeSent(rule, Stage::atDoor, Role::participant))
                stage = textOf(kStages[rule.stages == 1 ? 0 : rule.stages == 2 ? 1 : 2]);
            QStringList roles;
            for (std::size_t i = 0; i < WireNames<Role>::kNames.size(); ++i)
                if (mayBeSent(rule, Stage::in, static_cast<Role>(i)))
                    roles += textOf(WireNames<Role>::kNames[i]);
            const QString who = roles.isEmpty() ? "–" : roles.size() == 4 ? "all" : roles.join(", ");
            expected +=
                QStringLiteral("| `%1` | %2 | %3 | %4 |").arg(textOf(rule.message), stage, who).arg(rule.mostBytes);
        }
        const QStringList rows =
            m_document.section("## Who may send what", 1).split('\n').filter(QRegularExpression("^\\| `"));
        QCOMPARE(rows, expected);
    }

    void everyRefusalStandsInIt()
    {
        static const QRegularExpression kCode(
            "(?:fail\\(|Error[ a-zA-Z]*\\{|return \\{|[,(] \\{|\\s\\{)\"([a-z]+(?:-[a-z]+)*)\", \"");
        int found = 0;
        for (QDirIterator files(VH_SOURCE_DIR "/server/hall", {"*.cpp", "*.h"}, QDir::Files); files.hasNext();) {
            const QString source = contentsOf(files.next());
            for (auto codes = kCode.globalMatch(source); codes.hasNext(); ++found) {
                const QString code = codes.next().captured(1);
                QVERIFY2(m_document.contains("`" + code + "`"), qPrintable(code));
            }
        }
        QVERIFY(found > 20);
    }

    void theSignedExampleIsRight()
    {
        // RFC 8032 section 7.1, test 1.
        const auto seed = bytesOfHex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60");
        KeyPair pair;
        crypto_sign_seed_keypair(pair.publicKey.data(), pair.secretKey.data(), seed->data());
        QVERIFY(m_document.contains(textOf(hexOf(pair.publicKey))));
        Bytes<32> nonce{};
        for (std::size_t i = 0; i < nonce.size(); ++i)
            nonce[i] = static_cast<std::uint8_t>(i);
        const std::string text =
            loginText(Purpose::login, "000102030405060708090a0b0c0d0e0f", nonce, Role::participant);
        QVERIFY(m_document.contains(QStringLiteral("the text has %1 bytes").arg(text.size())));
        QVERIFY(m_document.contains(textOf(hexOf(sign(pair, text)))));
    }

    void theExampleOfAScriptIsOneAndItsLimitsAreTheCodes()
    {
        const std::string example = m_document.section("```json\n", 1).section("```", 0, 0).toStdString();
        const auto script = decodeScript(example);
        QVERIFY2(script, script ? "" : script.error().message.c_str());
        QCOMPARE(script->sections.size(), std::size_t{2});
        using namespace vh::limits;
        const std::vector<std::pair<const char*, std::size_t>> kLimits{
            {"`title` text %1, `theme`", kMaxTitle},
            {"`language` text %1 ", kMaxLanguage},
            {"`sections` list %1 ", kMaxSections},
            {"`steps` list %1 ", kMaxStepsPerSection},
            {"`text` text %1,", kMaxText},
            {"`stretches` list %1 ", kMaxStretches},
            {"{`file` text %1,", kMaxPictureFile},
            {"`description` text %1}", kMaxDescription},
            {"`note` text %1 ", kMaxNote},
            {"`rounds` list %1,", kMaxRoundsPerStep},
            {"`turns` list %1 ", kMaxTurnsPerRound},
            {"(1 to %1)", kMaxMinutes},
            {"at most %1 steps", kMaxSteps},
            {"%1 turns and 64 KiB", kMaxTurns},
            {"at most %1 letters long", kMaxStretch},
            {"(500 to %1)", static_cast<std::size_t>(kMaxTurn.count())}};
        for (const auto& [words, limit] : kLimits) {
            const QString said = QString::fromUtf8(words).arg(limit);
            QVERIFY2(m_document.contains(said), qPrintable(said));
        }
        QCOMPARE(kMaxTextBytes, std::size_t{64 * 1024});
        QCOMPARE(kMinTurn, Millis{500});
    }

    void theBinaryExamplesAreRight()
    {
        Reading reading;
        reading.turnSerial = 0x01020304;
        reading.elapsedMs = 4000;
        reading.heardMs = 2500;
        reading.voicedMs = 2000;
        reading.leqOverUsualDb = 4.2F;
        reading.nowOverUsualDb = -1.5F;
        reading.trustPercent = 80;
        reading.reason = Blank::clipping;
        QCOMPARE(exampleOf(m_document, "1 reading"), hexOfFrame(encodeReading(reading)));
        QCOMPARE(exampleOf(m_document, "2 sound"),
                 hexOfFrame(encodeSound({5, 48'000ULL * 60}, std::vector<std::uint8_t>{9, 8, 7})));
        QCOMPARE(exampleOf(m_document, "3 part"),
                 hexOfFrame(encodePart(sha256("abc"), std::vector<std::uint8_t>{'a', 'b', 'c'})));
        Roster roster;
        roster.whole = true;
        roster.entries = {{3, Standing::inBand, Blank::none, true, 4.2F, true}};
        QCOMPARE(exampleOf(m_document, "4 roster"), hexOfFrame(encodeRoster(roster)));
    }

    void theNumbersOfStandingsAndReasonsAreRight()
    {
        QStringList standings;
        for (int i = 0; i <= static_cast<int>(Standing::away); ++i)
            standings += QStringLiteral("%1 %2").arg(i).arg(textOf(nameOf(static_cast<Standing>(i))));
        QVERIFY2(m_document.contains("standing: " + standings.join(", ")), qPrintable(standings.join(", ")));
        QStringList reasons;
        for (std::size_t i = 0; i < WireNames<Blank>::kNames.size(); ++i)
            reasons += QStringLiteral("%1 %2").arg(i).arg(textOf(WireNames<Blank>::kNames[i]));
        QVERIFY2(m_document.contains("reason: " + reasons.join(", ")), qPrintable(reasons.join(", ")));
    }

private:
    template <class Variant, std::size_t I = 0>
    void checkAll()
    {
        if constexpr (I < std::variant_size_v<Variant>) {
            std::variant_alternative_t<I, Variant> message;
            Describer describer;
            visitFields(message, describer);
            check(textOf(decltype(message)::kName), describer.rows);
            checkAll<Variant, I + 1>();
        }
    }

    void check(const QString& name, const QStringList& fields)
    {
        const QString section =
            m_document.section("\n### `" + name + "`", 1).section("\n### ", 0, 0).section("\n## ", 0, 0);
        QVERIFY2(!section.isEmpty(), qPrintable(name));
        const QString table = section.section("| field |", 1).section("\n\n", 0, 0);
        const QStringList rows = table.split('\n').filter(QRegularExpression("^\\| `"));
        QVERIFY2(rows.size() == fields.size(), qPrintable(name + ": " + rows.join("\n")));
        for (qsizetype i = 0; i < rows.size(); ++i) {
            const QString row =
                rows[i].section('|', 1, 1).trimmed().remove('`') + "|" + rows[i].section('|', 2, 2).trimmed();
            QVERIFY2(row.startsWith(fields[i]), qPrintable(name + ": " + row + " is not " + fields[i]));
        }
    }

    QString m_document;
};

QTEST_APPLESS_MAIN(TestProtocolDocument)
#include "test_protocol_document.moc"
