#pragma once
// Before class: how people come in. The code for whoever types it, the four words to compare at the door, links to
// send, and the papers of the class. A press on a link asks for it; whoever hears that puts it on the clipboard, and
// the sheet shows it. Part of ReadyPage. GUI thread.
#include "app/lead/lead_view.h"

#include <QFrame>

class QBoxLayout;
class QLabel;
class QLineEdit;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class WayInSheet : public QFrame
{
    Q_OBJECT
public:
    explicit WayInSheet(QWidget* parent);
    void setState(const WayIn& way, PapersView papers);

signals:
    void copyRequested(const QString& link);
    void inviteRequested(vh::Role role);
    void papersRequested();

private:
    QBoxLayout* makeCode();
    QBoxLayout* makeLinks();
    QLabel* makeHead(const QString& words);
    void addRule(QBoxLayout* column);
    void press(Role role);
    [[nodiscard]] QString linkFor(Role role) const;

    WayIn m_way;
    Role m_for = Role::moderator; ///< whose link is shown
    QLabel* m_code;
    QLabel* m_wordsHead;
    QLabel* m_words;
    QLabel* m_linkWords;
    QLineEdit* m_link;
    BigButton* m_papers;
};

} // namespace vh::lead
