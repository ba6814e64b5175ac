#include "app/handout/pdf_tags.h"

#include "app/handout/pdf_objects.h"

#include <QPainter>
#include <QRegularExpression>

#include <algorithm>

namespace vh::handout
{

namespace
{

constexpr int kFar = 20000;  ///< units off the page, to the left and above
constexpr int kApart = 16;   ///< from mark to mark
constexpr int kMarkEdge = 8; ///< a size that nothing else there has

QByteArray reference(int number)
{
    return QByteArray::number(number) + " 0 R";
}

/// UTF-16, big-endian, with its mark (ISO 32000-1, 7.9.2.2).
QByteArray textString(const QString& text)
{
    QByteArray hex = "<FEFF";
    for (const QChar unit : text)
        hex += QByteArray::number(unit.unicode(), 16).rightJustified(4, '0');
    return hex + '>';
}

QByteArray structureType(Element::Kind kind)
{
    switch (kind) {
    case Element::Kind::title:
        return "/H1";
    case Element::Kind::heading:
        return "/H2";
    case Element::Kind::paragraph:
        return "/P";
    case Element::Kind::caption:
        return "/Caption";
    case Element::Kind::figure:
        return "/Figure";
    }
    return "/P";
}

QByteArray boxOf(const QRectF& where)
{
    QByteArray box = "[";
    for (const double edge : {where.left(), where.top(), where.right(), where.bottom()})
        box += QByteArray::number(edge, 'f', 1) + ' ';
    return box + ']';
}

class Tagger
{
public:
    Tagger(PdfObjects objects, const PdfExtras& extras) : m_objects(std::move(objects)), m_extras(extras) {}

    std::optional<QByteArray> run()
    {
        if (!findPages())
            return {};
        m_document = m_objects.add({});
        m_tree = m_objects.add({});
        for (std::size_t page = 0; page < m_pages.size(); ++page)
            if (!tagPage(page))
                return {};
        if (m_marksFound != m_extras.marks.size())
            return {};
        mendSpaces();
        writeTree();
        writeOutline();
        writeHead();
        return m_objects.file();
    }

private:
    struct Node {
        ElementRef element;
        int object = 0;
        int firstPage = 0;
        QRectF where;
        QByteArray kids;
    };

    bool findPages()
    {
        const QByteArray tree = m_objects.body(PdfObjects::referred(m_objects.body(m_objects.root()), "/Pages"));
        static const QRegularExpression each(QStringLiteral("(\\d+) 0 R"));
        const qsizetype kids = tree.indexOf("/Kids");
        auto found = each.globalMatch(QString::fromLatin1(tree.mid(kids, tree.indexOf(']', kids) - kids)));
        while (found.hasNext())
            m_pages.push_back(found.next().captured(1).toInt());
        return !m_pages.empty();
    }

    bool tagPage(std::size_t page)
    {
        const int contents = PdfObjects::referred(m_objects.body(m_pages[page]), "/Contents");
        const auto content = m_objects.stream(contents);
        if (!content)
            return false;
        static const QRegularExpression mark(
            QStringLiteral("-(\\d+) -%1 %2 %2 re\\nf\\*?\\n").arg(kFar).arg(kMarkEdge));
        QByteArray tagged;
        QByteArray parents;
        int inPage = 0; // numbers of marked content in this page
        bool open = false;
        qsizetype done = 0;
        auto found = mark.globalMatch(QString::fromLatin1(*content)); // Latin-1: one character for each byte
        while (found.hasNext()) {
            const auto match = found.next();
            const auto number = static_cast<std::size_t>((match.captured(1).toInt() - kFar) / kApart);
            if (number >= m_extras.marks.size())
                return false;
            ++m_marksFound;
            tagged += content->mid(done, match.capturedStart() - done) + (open ? "EMC\n" : "");
            done = match.capturedEnd();
            open = true;
            const Mark& what = m_extras.marks[number];
            if (!what.element) {
                tagged += "/Artifact BMC\n";
                continue;
            }
            tagged += structureType(what.element->kind) + " <</MCID " + QByteArray::number(inPage) + ">> BDC\n";
            parents += reference(belongs(what, page, inPage++)) + ' ';
        }
        m_objects.replaceStream(contents, tagged + content->mid(done) + (open ? "EMC\n" : ""));
        m_objects.addKeys(m_pages[page], "/StructParents " + QByteArray::number(page) + "\n/Tabs /S");
        m_parents += QByteArray::number(page) + " [" + parents + "]\n";
        return true;
    }

    /// The object of the element that this piece is part of.
    int belongs(const Mark& mark, std::size_t page, int inPage)
    {
        auto node = std::find_if(m_nodes.rbegin(), m_nodes.rend(),
                                 [&](const Node& each) { return each.element == mark.element; });
        if (node == m_nodes.rend()) {
            m_nodes.push_back({mark.element, m_objects.add({}), m_pages[page], mark.where, {}});
            node = m_nodes.rbegin();
        }
        node->kids += "<</Type /MCR /Pg " + reference(m_pages[page]) + " /MCID " + QByteArray::number(inPage) + ">>\n";
        return node->object;
    }

    /// A font's table from drawn letters to written ones, in which Qt calls the space a tab: it is the first character
    /// that is drawn so. Somebody who looks for two words, or has them read, needs the space.
    void mendSpaces()
    {
        for (const int number : m_objects.numbers()) {
            QByteArray body = m_objects.body(number);
            if (!body.contains("begincmap"))
                continue;
            for (qsizetype at = body.indexOf('['); at >= 0; at = body.indexOf('[', at + 1)) {
                const qsizetype end = body.indexOf(']', at);
                const QByteArray letters = body.mid(at, end - at).replace("<0009>", "<0020>"); // of the same length
                body.replace(at, letters.size(), letters);
            }
            m_objects.replace(number, body);
        }
    }

    void writeTree()
    {
        QByteArray kids;
        for (const Node& node : m_nodes) {
            kids += reference(node.object) + ' ';
            QByteArray body = "<</Type /StructElem /S " + structureType(node.element->kind) + " /P " +
                              reference(m_document) + " /Pg " + reference(node.firstPage) + "\n/K [" + node.kids + "]";
            if (node.element->kind == Element::Kind::figure)
                body += "\n/Alt " + textString(node.element->alt) + "\n/A <</O /Layout /Placement /Block /BBox " +
                        boxOf(node.where) + ">>";
            m_objects.replace(node.object, '\n' + body + ">>\n");
        }
        m_objects.replace(m_document,
                          "\n<</Type /StructElem /S /Document /P " + reference(m_tree) + "\n/K [" + kids + "]>>\n");
        m_objects.replace(m_tree, "\n<</Type /StructTreeRoot /K " + reference(m_document) + "\n/ParentTree <</Nums [" +
                                      m_parents + "]>>\n/ParentTreeNextKey " + QByteArray::number(m_pages.size()) +
                                      ">>\n");
    }

    void writeOutline()
    {
        if (m_extras.outline.empty())
            return;
        const int head = m_objects.add({});
        std::vector<int> items;
        for (std::size_t i = 0; i < m_extras.outline.size(); ++i)
            items.push_back(m_objects.add({}));
        for (std::size_t i = 0; i < items.size(); ++i) {
            const OutlineEntry& entry = m_extras.outline[i];
            QByteArray body = "\n<</Title " + textString(entry.title) + " /Parent " + reference(head) + " /Dest [" +
                              reference(m_pages[std::min(entry.page, m_pages.size() - 1)]) + " /XYZ null " +
                              QByteArray::number(entry.top, 'f', 1) + " null]";
            if (i > 0)
                body += " /Prev " + reference(items[i - 1]);
            if (i + 1 < items.size())
                body += " /Next " + reference(items[i + 1]);
            m_objects.replace(items[i], body + ">>\n");
        }
        m_objects.replace(head, "\n<</Type /Outlines /First " + reference(items.front()) + " /Last " +
                                    reference(items.back()) + " /Count " + QByteArray::number(items.size()) + ">>\n");
        m_objects.addKeys(m_objects.root(), "/Outlines " + reference(head));
    }

    void writeHead()
    {
        m_objects.addKeys(m_objects.root(), "/Lang " + textString(m_extras.language) +
                                                "\n/MarkInfo <</Marked true>>\n/StructTreeRoot " + reference(m_tree) +
                                                "\n/ViewerPreferences <</DisplayDocTitle true>>");
        if (m_extras.date.isNull())
            return;
        static const QRegularExpression made(QStringLiteral("/CreationDate \\([^)]*\\)"));
        QString info = QString::fromLatin1(m_objects.body(m_objects.info()));
        info.replace(made, m_extras.date.toString(QStringLiteral("'/CreationDate (D:'yyyyMMdd'120000Z)'")));
        m_objects.replace(m_objects.info(), info.toLatin1());
    }

    PdfObjects m_objects;
    const PdfExtras& m_extras;
    std::vector<int> m_pages;
    std::vector<Node> m_nodes;
    QByteArray m_parents; ///< of the parent tree: for each page, the elements of its marked content
    int m_document = 0;
    int m_tree = 0;
    std::size_t m_marksFound = 0;
};

} // namespace

void leaveMark(QPainter& painter, std::size_t number)
{
    painter.fillRect(QRectF(-kFar - static_cast<double>(number) * kApart, -kFar, kMarkEdge, kMarkEdge),
                     QColor(Qt::black));
}

std::optional<QByteArray> withExtras(const QByteArray& plain, const PdfExtras& extras)
{
    auto objects = PdfObjects::take(plain);
    return objects ? Tagger(std::move(*objects), extras).run() : std::nullopt;
}

} // namespace vh::handout
