#pragma once
// The first screen. Those who have been here before are one press from where they were: "Who is here?" in large names
// on a computer that several share. For everybody else there are four ways. What does not exist yet is absent. GUI
// thread.
#include "app/link/identity.h"

#include <QWidget>

class QGridLayout;
class QLabel;
class QLayout;

namespace vh
{

class BigButton;

struct FirstView {
    struct Known {
        QString name;   ///< "Ruth"
        QString does;   ///< "joins Lakeside voices"
        QString spoken; ///< the two together, for a screen reader
        friend bool operator==(const Known&, const Known&) = default;
    };
    std::vector<Known> known; ///< most recent first
    friend bool operator==(const FirstView&, const FirstView&) = default;
};
FirstView firstViewOf(const std::vector<link::Membership>& memberships);

class FirstRoom : public QWidget
{
    Q_OBJECT
public:
    explicit FirstRoom(QWidget* parent = nullptr);
    void setState(const FirstView& view);

signals:
    void knownRequested(int which);
    void joinRequested();
    void leadRequested();
    void helpRequested();
    void writeRequested();
    /// The next size of words; dark instead of light, or light again.
    void wordsSizeRequested();
    void groundRequested();

protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QLayout* head();
    QLayout* ways();
    void showLook();
    void showKnown();
    void placeKnown();
    [[nodiscard]] std::size_t shownAtOnce() const;
    [[nodiscard]] int columns() const;

    FirstView m_view;
    std::size_t m_from = 0; ///< the first one shown: there may be more than there is room for
    QWidget* m_content;
    QLabel* m_heading;
    QLabel* m_words;
    QWidget* m_knownBox;
    QGridLayout* m_known;
    QList<BigButton*> m_names;
    QLabel* m_newHere;
    BigButton* m_more = nullptr;
    BigButton* m_size = nullptr;
    BigButton* m_ground = nullptr;
};

} // namespace vh
