#include "app/handout/pdf_objects.h"

#include <QCryptographicHash>
#include <QRegularExpression>

#include <algorithm>

namespace vh::handout
{

namespace
{

constexpr qsizetype kEntry = 20; ///< bytes of a row of the table (ISO 32000-1, 7.5.4)

std::optional<qsizetype> tableStart(const QByteArray& file)
{
    const qsizetype word = file.lastIndexOf("startxref");
    if (word < 0)
        return {};
    bool fine = false;
    const qsizetype start = file.mid(word + 9).simplified().split(' ').value(0).toLongLong(&fine);
    return fine && start > 0 && file.mid(start, 4) == "xref" ? std::optional(start) : std::nullopt;
}

/// Where each object begins; index 0 is never used.
std::vector<qsizetype> offsetsOf(const QByteArray& file, qsizetype table)
{
    const qsizetype first = file.indexOf('\n', table) + 1;
    const qsizetype rows = file.indexOf('\n', first) + 1;
    const int count = file.mid(first, rows - first).simplified().split(' ').value(1).toInt();
    std::vector<qsizetype> offsets;
    for (int number = 0; number < count; ++number)
        offsets.push_back(file.mid(rows + number * kEntry, 10).toLongLong());
    return offsets;
}

QByteArray padded(qsizetype offset)
{
    return QByteArray::number(offset).rightJustified(10, '0');
}

} // namespace

std::optional<PdfObjects> PdfObjects::take(const QByteArray& file)
{
    const auto table = tableStart(file);
    if (!table)
        return {};
    PdfObjects objects;
    const std::vector<qsizetype> offsets = offsetsOf(file, *table);
    std::vector<qsizetype> ends(offsets.begin(), offsets.end());
    ends.push_back(*table);
    std::sort(ends.begin(), ends.end());
    for (std::size_t number = 1; number < offsets.size(); ++number) {
        const auto end = std::upper_bound(ends.begin(), ends.end(), offsets[number]);
        const qsizetype start = file.indexOf("obj", offsets[number]);
        if (offsets[number] <= 0 || start < 0 || end == ends.end())
            return {};
        const QByteArray whole = file.mid(start + 3, *end - start - 3);
        const qsizetype last = whole.lastIndexOf("endobj");
        if (last < 0)
            return {};
        objects.m_bodies[static_cast<int>(number)] = whole.left(last);
        if (number == 1)
            objects.m_head = file.left(offsets[number]);
    }
    const QByteArray trailer = file.mid(*table);
    objects.m_root = referred(trailer, "/Root");
    objects.m_info = referred(trailer, "/Info");
    if (!objects.m_bodies.contains(objects.m_root) || !objects.m_bodies.contains(objects.m_info))
        return {};
    return objects;
}

std::vector<int> PdfObjects::numbers() const
{
    std::vector<int> all;
    for (const auto& [number, body] : m_bodies)
        all.push_back(number);
    return all;
}

QByteArray PdfObjects::body(int number) const
{
    const auto found = m_bodies.find(number);
    return found == m_bodies.end() ? QByteArray() : found->second;
}

void PdfObjects::addKeys(int number, const QByteArray& keys)
{
    QByteArray& body = m_bodies[number];
    body.insert(body.indexOf("<<") + 2, '\n' + keys);
}

int PdfObjects::add(const QByteArray& body)
{
    const int number = m_bodies.rbegin()->first + 1;
    m_bodies[number] = '\n' + body + '\n';
    return number;
}

int PdfObjects::referred(const QByteArray& body, const QByteArray& key)
{
    static const QRegularExpression reference(QStringLiteral("^\\s+(\\d+) 0 R"));
    const qsizetype at = body.indexOf(key + ' ');
    return at < 0 ? 0 : reference.match(QString::fromLatin1(body.mid(at + key.size(), 20))).captured(1).toInt();
}

std::optional<QByteArray> PdfObjects::stream(int number) const
{
    const QByteArray raw = body(number);
    const qsizetype word = raw.indexOf("stream\n");
    if (word < 0 || !raw.left(word).contains("/FlateDecode"))
        return {};
    const qsizetype length = body(referred(raw.left(word), "/Length")).trimmed().toLongLong();
    const QByteArray packed = raw.mid(word + 7, length);
    // qUncompress wants the unpacked size before the data (big-endian); any guess will do.
    const auto guess = static_cast<quint32>(packed.size() * 8);
    QByteArray sized;
    for (const int shift : {24, 16, 8, 0})
        sized.append(static_cast<char>(guess >> shift & 0xFFU));
    const QByteArray content = qUncompress(sized + packed);
    return content.isEmpty() ? std::nullopt : std::optional(content);
}

void PdfObjects::replaceStream(int number, const QByteArray& content)
{
    const QByteArray packed = qCompress(content).mid(4);
    m_bodies[number] = "\n<<\n/Length " + QByteArray::number(packed.size()) + "\n/Filter /FlateDecode\n>>\nstream\n" +
                       packed + "\nendstream\n";
}

QByteArray PdfObjects::file() const
{
    QByteArray out = m_head;
    QByteArray rows = "0000000000 65535 f \n";
    int next = 1;
    for (const auto& [number, body] : m_bodies) {
        for (; next < number; ++next)
            rows += "0000000000 65535 f \n";
        next = number + 1;
        rows += padded(out.size()) + " 00000 n \n";
        out += QByteArray::number(number) + " 0 obj" + body + "endobj\n";
    }
    const QByteArray id = QCryptographicHash::hash(out, QCryptographicHash::Sha256).left(16).toHex();
    const qsizetype table = out.size();
    out += "xref\n0 " + QByteArray::number(next) + '\n' + rows;
    out += "trailer\n<<\n/Size " + QByteArray::number(next) + "\n/Info " + QByteArray::number(m_info) + " 0 R\n/Root " +
           QByteArray::number(m_root) + " 0 R\n/ID [<" + id + "> <" + id + ">]\n>>\nstartxref\n" +
           QByteArray::number(table) + "\n%%EOF\n";
    return out;
}

} // namespace vh::handout
