#pragma once
// A list of short texts, each with who wrote it and when; plain text whatever it says. Cards keep their order and, by
// their id, the choice. When the chosen card goes without having been asked for here (somebody else dealt with it),
// nothing is chosen any more, so that a key meant for one line never falls on the next. GUI thread.
#include <QListWidget>

#include <cstdint>
#include <vector>

namespace vh
{

class CardList : public QListWidget
{
    Q_OBJECT
public:
    struct Card {
        std::uint64_t id = 0;
        QString head;  ///< bold: a name, "Notice from the desk"
        QString aside; ///< "12 s"
        QString text;
        bool quiet = false; ///< set apart by its ground
        friend bool operator==(const Card&, const Card&) = default;
    };
    enum class Choice {
        none,   ///< only to be read
        newest, ///< likewise; the end of the list stays in sight
        one,    ///< one card can be chosen
    };

    CardList(Choice choice, const QString& accessibleName, QWidget* parent = nullptr);
    void setState(const std::vector<Card>& cards);
    /// Of the chosen card; nothing is chosen: 0.
    [[nodiscard]] std::uint64_t chosen() const;
    /// The chosen card has been dealt with here: once it goes, the next one is chosen.
    void leave(std::uint64_t id) { m_left = id; }

signals:
    /// A key of 1...9 while the list has the focus and a card is chosen.
    void digitPressed(int digit, quint64 card);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    std::vector<Card> m_cards;
    Choice m_choice;
    std::uint64_t m_left = 0;
};

} // namespace vh
