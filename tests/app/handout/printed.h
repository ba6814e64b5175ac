#pragma once
// What a PDF holds, as programs outside this project see it: poppler's pdfinfo, pdffonts, pdftotext, pdftohtml and
// pdftoppm, run on a file in a folder of the test's. Throws what they say when they fail. The test's thread.
#include <QImage>
#include <QList>
#include <QString>
#include <QStringList>
#include <QTemporaryDir>

namespace vh::testing
{

class Printed
{
public:
    explicit Printed(const QByteArray& pdf);

    [[nodiscard]] QString info(const QString& key) const; ///< of pdfinfo, such as "Page size"
    [[nodiscard]] int pages() const { return info(QStringLiteral("Pages")).toInt(); }
    /// In the order in which it stands in the file (not where it stands on the page), white space made single spaces.
    [[nodiscard]] QString text() const;
    /// In the order of the tagged structure, with the kinds: "H1 (block)", then what it says.
    [[nodiscard]] QString structure() const;
    [[nodiscard]] QStringList fonts() const;       ///< a line for each, of pdffonts
    [[nodiscard]] QList<double> fontSizes() const; ///< in pt, of all text, as it is drawn
    [[nodiscard]] QStringList images() const;      ///< a line for each that is no vector drawing
    [[nodiscard]] QImage page(int number, int dpi, const QStringList& options = {}) const;
    [[nodiscard]] QList<QImage> allPages(int dpi) const; ///< in grey

private:
    [[nodiscard]] QByteArray run(const QString& program, const QStringList& arguments) const;

    QTemporaryDir m_folder;
    QString m_file;
};

/// White space of any kind made one space.
QString flat(const QString& text);

} // namespace vh::testing
