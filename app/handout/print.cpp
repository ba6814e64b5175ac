#include "app/handout/print.h"

#include "app/handout/pdf_tags.h"
#include "app/look/type.h"

#include <QBuffer>
#include <QPainter>
#include <QPdfWriter>

namespace vh::handout
{

namespace
{

QPageSize pageSize(Paper paper)
{
    return QPageSize(paper == Paper::letter ? QPageSize::Letter : QPageSize::A4);
}

/// Metadata that programs find without opening the document (ISO 16684-1).
QByteArray metadataOf(const PrintSetup& setup)
{
    const QString date =
        setup.date.isNull()
            ? QString()
            : QStringLiteral("<xmp:CreateDate>%1T12:00:00Z</xmp:CreateDate>").arg(setup.date.toString(Qt::ISODate));
    return QStringLiteral("<?xpacket begin='' id='W5M0MpCehiHzreSzNTczkc9d'?>\n"
                          "<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:RDF "
                          "xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'><rdf:Description rdf:about='' "
                          "xmlns:dc='http://purl.org/dc/elements/1.1/' xmlns:xmp='http://ns.adobe.com/xap/1.0/'>"
                          "<dc:format>application/pdf</dc:format>"
                          "<dc:title><rdf:Alt><rdf:li xml:lang='x-default'>%1</rdf:li></rdf:Alt></dc:title>"
                          "<dc:language><rdf:Bag><rdf:li>%2</rdf:li></rdf:Bag></dc:language>"
                          "<xmp:CreatorTool>Voicehall</xmp:CreatorTool>%3"
                          "</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end='w'?>")
        .arg(setup.title.toHtmlEscaped(), setup.language.toHtmlEscaped(), date)
        .toUtf8();
}

class Printer
{
public:
    Printer(const Flow& flow, const PrintSetup& setup) : m_setup(setup), m_pages(paginate(flow, setup.shape.height()))
    {
    }

    QByteArray run()
    {
        QByteArray plain;
        QBuffer buffer(&plain);
        buffer.open(QIODevice::WriteOnly);
        {
            QPdfWriter writer(&buffer);
            writer.setResolution(72 * kUnitsPerPoint);
            writer.setPageLayout(QPageLayout(pageSize(m_setup.paper), QPageLayout::Portrait, QMarginsF()));
            writer.setTitle(m_setup.title);
            writer.setCreator(QStringLiteral("Voicehall"));
            writer.setDocumentXmpMetadata(metadataOf(m_setup));
            QPainter painter(&writer);
            for (std::size_t page = 0; page < m_pages.size(); ++page) {
                if (page > 0)
                    writer.newPage();
                drawPage(painter, page);
            }
        }
        return withExtras(plain, m_extras).value_or(plain);
    }

private:
    void drawPage(QPainter& painter, std::size_t page)
    {
        const PageShape& shape = m_setup.shape;
        for (const Placed& placed : m_pages[page]) {
            const double top = shape.top + placed.top;
            const double fromBelow = (shape.size.height() - top) / kUnitsPerPoint;
            if (placed.outline)
                m_extras.outline.push_back({*placed.outline, page, fromBelow});
            if (!placed.piece->draw)
                continue;
            const double high = placed.piece->height / kUnitsPerPoint;
            mark(painter, {placed.piece->element, QRectF(shape.left / kUnitsPerPoint, fromBelow - high,
                                                         shape.width() / kUnitsPerPoint, high)});
            painter.save();
            placed.piece->draw(painter, top);
            painter.restore();
        }
        mark(painter, {});
        if (m_setup.foot)
            m_setup.foot(painter, shape, static_cast<int>(page) + 1, static_cast<int>(m_pages.size()));
    }

    void mark(QPainter& painter, const Mark& what)
    {
        leaveMark(painter, m_extras.marks.size());
        m_extras.marks.push_back(what);
    }

    const PrintSetup& m_setup;
    std::vector<PlacedPage> m_pages;
    PdfExtras m_extras{m_setup.language, m_setup.date, {}, {}};
};

} // namespace

QSizeF sizeOf(Paper paper)
{
    return QSizeF(pageSize(paper).sizePoints()) * kUnitsPerPoint;
}

Result<QByteArray> print(const Flow& flow, const PrintSetup& setup)
{
    if (!look::loadTypeface())
        return fail("typeface-missing", "The typeface of this program is missing or damaged. Please install it anew.");
    return Printer(flow, setup).run();
}

} // namespace vh::handout
