#pragma once
// The objects of a PDF file as Qt writes it (one table of them, no compressed ones): taken apart, some of them
// replaced, some added, and put together again. Only for files of our own making. Values; any thread.
#include <QByteArray>

#include <map>
#include <optional>
#include <vector>

namespace vh::handout
{

class PdfObjects
{
public:
    /// Nothing when the table at the end is not as expected.
    static std::optional<PdfObjects> take(const QByteArray& file);

    [[nodiscard]] int root() const { return m_root; }
    [[nodiscard]] int info() const { return m_info; }
    [[nodiscard]] std::vector<int> numbers() const;
    /// Between "obj" and "endobj"; empty for an unknown number.
    [[nodiscard]] QByteArray body(int number) const;
    void replace(int number, const QByteArray& body) { m_bodies[number] = body; }
    /// Puts keys at the beginning of an object that is a dictionary.
    void addKeys(int number, const QByteArray& keys);
    int add(const QByteArray& body);
    /// The object that a dictionary's key refers to ("/Pages 3 0 R"); 0: none.
    [[nodiscard]] static int referred(const QByteArray& body, const QByteArray& key);
    /// What a compressed stream holds; nothing when it is none.
    [[nodiscard]] std::optional<QByteArray> stream(int number) const;
    void replaceStream(int number, const QByteArray& content);

    [[nodiscard]] QByteArray file() const;

private:
    QByteArray m_head; ///< "%PDF-1.4" and what follows it
    std::map<int, QByteArray> m_bodies;
    int m_root = 0;
    int m_info = 0;
};

} // namespace vh::handout
