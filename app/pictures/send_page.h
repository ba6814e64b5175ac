#pragma once
// A participant sends a picture: chosen from a file or pasted, seen large with what will happen to it, then sent or
// not. Large controls, everything by keyboard, no drag. GUI thread.
#include "app/pictures/send_view.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QStackedLayout;

namespace vh
{
class BigButton;
}

namespace vh::pictures
{

class PictureBox;

class SendPage : public QWidget
{
    Q_OBJECT
public:
    explicit SendPage(QWidget* parent = nullptr);
    /// What somebody has written below a picture stays while it is the same picture.
    void setState(const SendView& view);

signals:
    void chooseRequested();
    void pasteRequested();
    void sendRequested(const QString& caption);
    void agreementRequested(bool yes);
    void backRequested();

private:
    QWidget* makeAsking();
    QWidget* makeLooking();
    void showAsking(const SendView& view);
    BigButton* makeButton(const QString& words, bool main, QWidget* parent);

    SendView m_view;
    bool m_told = false;
    QStackedLayout* m_pages;
    QWidget* m_asking;
    QLabel* m_heading;
    QLabel* m_words;
    BigButton* m_choose;
    BigButton* m_paste;
    BigButton* m_yes;
    BigButton* m_no;
    BigButton* m_back;
    QWidget* m_looking;
    PictureBox* m_picture;
    QLineEdit* m_caption;
    BigButton* m_send;
};

} // namespace vh::pictures
