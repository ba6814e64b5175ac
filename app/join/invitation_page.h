#pragma once
// The leader asks whether everybody may hear this person: one calm question over the whole room, yes and no alike, and
// all the time that is wanted. The keyboard stands on neither: nobody agrees by chance. GUI thread.
#include "app/join/join_view.h"

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class InvitationPage : public SpokenWidget
{
    Q_OBJECT
public:
    explicit InvitationPage(QWidget* parent = nullptr);
    void setState(const InvitationView& view);

signals:
    void answered(bool yes);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    InvitationView m_view;
    QLabel* m_question;
    QLabel* m_words;
    BigButton* m_yes;
    BigButton* m_no;
};

} // namespace vh::join
