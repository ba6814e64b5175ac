#include "tests/app/handout/printed.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QRegularExpression>

#include <stdexcept>

namespace vh::testing
{

QString flat(const QString& text)
{
    return QString(text).replace(QChar::Nbsp, QLatin1Char(' ')).simplified();
}

Printed::Printed(const QByteArray& pdf) : m_file(m_folder.filePath(QStringLiteral("paper.pdf")))
{
    QFile file(m_file);
    if (!file.open(QIODevice::WriteOnly) || file.write(pdf) != pdf.size())
        throw std::runtime_error("the paper cannot be written");
}

QByteArray Printed::run(const QString& program, const QStringList& arguments) const
{
    QProcess process;
    process.start(program, arguments);
    if (!process.waitForFinished(60'000) || process.exitCode() != 0)
        throw std::runtime_error((program + ": " + QString::fromUtf8(process.readAllStandardError())).toStdString());
    const QByteArray complaints = process.readAllStandardError();
    if (!complaints.trimmed().isEmpty()) // poppler mends what it can, and says so
        throw std::runtime_error((program + ": ").toStdString() + complaints.toStdString());
    return process.readAllStandardOutput();
}

QString Printed::info(const QString& key) const
{
    for (const QString& line : QString::fromUtf8(run("pdfinfo", {m_file})).split(QLatin1Char('\n')))
        if (line.startsWith(key + QLatin1Char(':')))
            return line.mid(key.size() + 1).trimmed();
    return {};
}

QString Printed::text() const
{
    QString raw = QString::fromUtf8(run("pdftotext", {"-raw", m_file, "-"}));
    raw.replace(QStringLiteral("-\n"), QStringLiteral("-")); // "grey-green", broken after its hyphen
    return flat(raw);
}

QString Printed::structure() const
{
    return QString::fromUtf8(run("pdfinfo", {"-struct-text", m_file}));
}

QStringList Printed::fonts() const
{
    return QString::fromUtf8(run("pdffonts", {m_file})).trimmed().split(QLatin1Char('\n')).mid(2);
}

QStringList Printed::images() const
{
    return QString::fromUtf8(run("pdfimages", {"-list", m_file})).trimmed().split(QLatin1Char('\n')).mid(2);
}

QList<double> Printed::fontSizes() const
{
    // Sizes come rounded to whole units: at three units to a point, the most there is, that is a third of one.
    constexpr double kZoom = 3;
    const QString xml =
        QString::fromUtf8(run("pdftohtml", {"-xml", "-i", "-stdout", "-zoom", QString::number(kZoom), m_file}));
    static const QRegularExpression spec(QStringLiteral("<fontspec id=\"\\d+\" size=\"(\\d+)\""));
    QList<double> sizes;
    auto found = spec.globalMatch(xml);
    while (found.hasNext())
        sizes << found.next().captured(1).toDouble() / kZoom;
    return sizes;
}

QList<QImage> Printed::allPages(int dpi) const
{
    const QString stem = m_folder.filePath(QStringLiteral("page"));
    (void)run("pdftoppm", {"-r", QString::number(dpi), "-gray", m_file, stem});
    QList<QImage> all;
    for (const QString& name : QDir(m_folder.path()).entryList({"page-*.pgm"}, QDir::Files, QDir::Name))
        all << QImage(m_folder.filePath(name));
    return all;
}

QImage Printed::page(int number, int dpi, const QStringList& options) const
{
    const QString at = QString::number(number);
    const QByteArray png =
        run("pdftoppm", options + QStringList{"-r", QString::number(dpi), "-f", at, "-l", at, "-png", m_file});
    return QImage::fromData(png, "PNG");
}

} // namespace vh::testing
