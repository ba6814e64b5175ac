#include "app/write/svg_rewrite.h"

#include <QRegularExpression>
#include <QSet>
#include <QSvgRenderer>
#include <QXmlStreamReader>
#include <QXmlStreamWriter>

namespace vh::write
{

namespace
{

constexpr int kMostElements = 20'000;
constexpr int kMostDepth = 100;
const QString kSvg = QStringLiteral("http://www.w3.org/2000/svg");
const QString kXlink = QStringLiteral("http://www.w3.org/1999/xlink");

/// SVG 1.1 (W3C Recommendation, 16 August 2011), the elements of shapes, structure, text, paint and clipping.
const QSet<QStringView> kDraws{
    u"svg",     u"g",        u"defs",     u"symbol",  u"use",  u"path",   u"rect",           u"circle",
    u"ellipse", u"line",     u"polyline", u"polygon", u"text", u"tspan",  u"linearGradient", u"radialGradient",
    u"stop",    u"clipPath", u"pattern",  u"mask",    u"a",    u"marker", u"style"};
/// Only what is in the drawing itself: no import, no address. Escapes could hide one.
bool staysInside(QStringView value)
{
    const QString plain = value.toString().toLower();
    if (plain.contains(u'\\') || plain.contains(QLatin1String("@import")) ||
        plain.contains(QLatin1String("javascript:")))
        return false;
    for (qsizetype at = plain.indexOf(QLatin1String("url(")); at >= 0;
         at = plain.indexOf(QLatin1String("url("), at + 4)) {
        QStringView inside = QStringView(plain).mid(at + 4).trimmed();
        if (inside.startsWith(u'"') || inside.startsWith(u'\''))
            inside = inside.mid(1).trimmed();
        if (!inside.startsWith(u'#'))
            return false;
    }
    return true;
}

QStringView hrefOf(const QXmlStreamAttributes& attributes)
{
    return attributes.hasAttribute(kXlink, QStringLiteral("href")) ? attributes.value(kXlink, QStringLiteral("href"))
                                                                   : attributes.value(QStringLiteral("href"));
}

class Rewriting
{
public:
    explicit Rewriting(const QByteArray& svg) : m_reader(svg), m_writer(&m_bytes)
    {
        m_reader.setEntityExpansionLimit(1000);
    }

    Result<QByteArray> run()
    {
        m_writer.writeStartDocument();
        while (!m_reader.atEnd()) {
            m_reader.readNext();
            if (m_reader.isStartElement()) {
                if (auto refused = start())
                    return tl::unexpected<Error>(*refused);
            } else if (m_reader.isEndElement()) {
                m_writer.writeEndElement();
                --m_depth;
            } else if (m_reader.isCharacters() && m_depth > 0) {
                characters();
            }
        }
        if (m_reader.hasError() || m_elements == 0)
            return fail("picture-unreadable", "This SVG cannot be read: " + m_reader.errorString().toStdString() + '.');
        m_writer.writeEndDocument();
        return m_bytes;
    }

private:
    std::optional<Error> start()
    {
        const QStringView name = m_reader.name();
        const bool ours = m_reader.namespaceUri() == kSvg || m_reader.namespaceUri().isEmpty();
        if (ours && (name == u"image" || name == u"foreignObject"))
            return Error{"picture-refused",
                         "This SVG has another picture inside it. Please choose that one itself, or save "
                         "the drawing as PNG.",
                         {}};
        // What it would bring in lies outside.
        const bool empty = name == u"use" && !hrefOf(m_reader.attributes()).startsWith(u'#');
        if (!ours || !kDraws.contains(name) || empty) {
            m_reader.skipCurrentElement();
            return std::nullopt;
        }
        if (m_depth == 0 && name != u"svg")
            return Error{"picture-unreadable", "This is no SVG drawing.", {}};
        if (++m_elements > kMostElements || ++m_depth > kMostDepth)
            return Error{"picture-too-large", "This SVG has too many parts. Please save it as PNG.", {}};
        if (m_elements == 1) { // before the element, or it would get prefixes of its own
            m_writer.writeDefaultNamespace(kSvg);
            m_writer.writeNamespace(kXlink, QStringLiteral("xlink"));
        }
        m_writer.writeStartElement(kSvg, name == u"a" ? QStringLiteral("g") : name.toString()); // links lead nowhere
        for (const QXmlStreamAttribute& attribute : m_reader.attributes())
            if (name != u"a" || attribute.name() != u"href")
                attributeOf(attribute);
        m_style = name == u"style";
        return std::nullopt;
    }

    void attributeOf(const QXmlStreamAttribute& attribute)
    {
        const QStringView name = attribute.name();
        const QStringView space = attribute.namespaceUri();
        if (name == u"href" && (space.isEmpty() || space == kXlink)) {
            if (attribute.value().startsWith(u'#'))
                m_writer.writeAttribute(kXlink, QStringLiteral("href"), attribute.value().toString());
            return;
        }
        const bool acts = name.startsWith(u"on", Qt::CaseInsensitive);
        const bool tells = name.startsWith(u"data-") || name.startsWith(u"aria-");
        if (space.isEmpty() && !acts && !tells && staysInside(attribute.value()))
            m_writer.writeAttribute(name.toString(), attribute.value().toString());
    }

    void characters()
    {
        QString text = m_reader.text().toString();
        if (m_style)
            text.remove(
                QRegularExpression(QStringLiteral("/\\*.*?\\*/"), QRegularExpression::DotMatchesEverythingOption));
        if (!m_style || staysInside(text))
            m_writer.writeCharacters(text);
    }

    QXmlStreamReader m_reader;
    QByteArray m_bytes;
    QXmlStreamWriter m_writer;
    int m_elements = 0;
    int m_depth = 0;
    bool m_style = false; ///< inside a style sheet
};

} // namespace

Result<QByteArray> rewrittenSvg(const QByteArray& svg)
{
    if (svg.size() > kMostSvgBytes)
        return fail("picture-too-large", "This SVG is too large a file. Please save it as PNG.");
    auto written = Rewriting(svg).run();
    if (!written)
        return written;
    if (!QSvgRenderer(*written).isValid())
        return fail("picture-unreadable", "This SVG cannot be drawn here. Please save it as PNG.");
    return written;
}

} // namespace vh::write
