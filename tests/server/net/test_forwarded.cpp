#include "server/net/forwarded.h"

#include <QtTest>

using namespace vh::net;

namespace
{

TrustedProxies trusting(std::initializer_list<const char*> ranges, bool local = false)
{
    TrustedProxies proxies;
    for (const auto* range : ranges)
        proxies.ranges.push_back(AddressRange::parse(range).value());
    proxies.local = local;
    return proxies;
}

} // namespace

class TestForwarded : public QObject
{
    Q_OBJECT
private slots:
    void rangesHoldWhatTheySay()
    {
        const auto ten = AddressRange::parse("10.0.0.0/8").value();
        QVERIFY(ten.holds("10.255.0.1"));
        QVERIFY(ten.holds("::ffff:10.1.2.3"));
        QVERIFY(!ten.holds("11.0.0.1"));
        QVERIFY(!ten.holds("not an address"));
        const auto odd = AddressRange::parse("192.168.4.0/22").value();
        QVERIFY(odd.holds("192.168.7.255"));
        QVERIFY(!odd.holds("192.168.8.0"));
        const auto six = AddressRange::parse("2001:db8::/33").value();
        QVERIFY(six.holds("2001:db8:7fff::1"));
        QVERIFY(!six.holds("2001:db8:8000::1"));
        QVERIFY(AddressRange::parse("::1")->holds("::1"));
        QVERIFY(AddressRange::parse("0.0.0.0/0")->holds("8.8.8.8"));
    }

    void wrongRangesAreRefused()
    {
        for (const auto* text : {"", "proxy", "10.0.0.0/33", "10.0.0.0/", "10.0.0.0/8x", "::1/129", "10.0.0/8"})
            QCOMPARE(AddressRange::parse(text).error().code, std::string("bad-address"));
    }

    void strangersAreNotBelieved()
    {
        QCOMPARE(clientAddress("203.0.113.9", "198.51.100.1", trusting({"127.0.0.1"})), std::string("203.0.113.9"));
        QCOMPARE(clientAddress("127.0.0.1", "198.51.100.1", {}), std::string("127.0.0.1"));
        QCOMPARE(clientAddress("local", "198.51.100.1", trusting({})), std::string("local"));
    }

    void theRightmostUntrustedHopCounts()
    {
        const auto proxies = trusting({"127.0.0.1", "10.0.0.0/8"}, true);
        QCOMPARE(clientAddress("127.0.0.1", "198.51.100.1", proxies), std::string("198.51.100.1"));
        QCOMPARE(clientAddress("local", "198.51.100.1", proxies), std::string("198.51.100.1"));
        // What the client itself wrote stands further left and is not believed.
        QCOMPARE(clientAddress("127.0.0.1", "1.1.1.1, 198.51.100.1,10.2.3.4 ", proxies), std::string("198.51.100.1"));
        QCOMPARE(clientAddress("127.0.0.1", "10.0.0.1", proxies), std::string("10.0.0.1"));
        QCOMPARE(clientAddress("127.0.0.1", "", proxies), std::string("127.0.0.1"));
    }

    void nonsenseEndsTheWalk()
    {
        const auto proxies = trusting({"127.0.0.1", "10.0.0.0/8"});
        QCOMPARE(clientAddress("127.0.0.1", "198.51.100.1, unknown", proxies), std::string("127.0.0.1"));
        QCOMPARE(clientAddress("127.0.0.1", "198.51.100.1, unknown, 10.0.0.7", proxies), std::string("10.0.0.7"));
    }
};

QTEST_APPLESS_MAIN(TestForwarded)
#include "test_forwarded.moc"
