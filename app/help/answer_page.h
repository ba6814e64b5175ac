#pragma once
// Where an answer is written, beside the list, which stays as it is: to one person, to everybody, or what somebody who
// is put out of the class is told. In an empty line a digit puts the ready-made answer of that number there. Esc
// closes; what was begun is kept until it is sent. GUI thread.
#include "common/base/id.h"

#include <QHash>
#include <QStringList>
#include <QWidget>

class QLabel;
class QLineEdit;

namespace vh
{
class BigButton;
class CardList;
} // namespace vh

namespace vh::help
{

class AnswerPage : public QWidget
{
    Q_OBJECT
public:
    enum class Kind : quint8 { toOne, toAll, out };
    struct About {
        quint64 item = 0; ///< 0: a person alone
        PersonId person;
        QString name;
    };
    explicit AnswerPage(QWidget* parent = nullptr);
    void open(Kind kind, const About& about);
    /// The keyboard is here again, where it was left.
    void comeBack();
    void setReplies(const QStringList& replies);

signals:
    void sendRequested(vh::help::AnswerPage::Kind kind, const vh::help::AnswerPage::About& about, const QString& text);
    void repliesRequested();
    void closeRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void put(int number);
    void send();
    void keepDraft();
    [[nodiscard]] QString draftKey() const;

    Kind m_kind = Kind::toOne;
    About m_about;
    QStringList m_replies;
    QHash<QString, QString> m_drafts;
    QLabel* m_title;
    QLabel* m_note;
    CardList* m_ready;
    QWidget* m_below; ///< keeps its place where there are none
    QLineEdit* m_line;
    BigButton* m_send;
    BigButton* m_change;
};

} // namespace vh::help
