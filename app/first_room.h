#pragma once
// The first screen: what would you like to do? Those who have been here before are one press from where they were; for
// everybody else there are three ways. What does not exist yet is absent. GUI thread.
#include "app/link/identity.h"

#include <QWidget>

class QLabel;
class QLayout;
class QVBoxLayout;

namespace vh
{

struct FirstView {
    struct Known {
        QString words;  ///< "Join Lakeside voices as Ruth"; a long name of a group is cut
        QString spoken; ///< whole, for a screen reader
        friend bool operator==(const Known&, const Known&) = default;
    };
    std::vector<Known> known; ///< most recent first
    friend bool operator==(const FirstView&, const FirstView&) = default;
};
/// At most as many as fit on the screen at once.
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

private:
    QLayout* ways();

    QWidget* m_content;
    QWidget* m_knownBox;
    QVBoxLayout* m_known;
    QLabel* m_newHere;
    FirstView m_view;
};

} // namespace vh
