#pragma once
// One question on a screen: heading, a few words, something to write or a few large answers, cautions below. Enter
// submits. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class AskPage : public QWidget
{
    Q_OBJECT
public:
    explicit AskPage(QWidget* parent = nullptr);
    /// What somebody has typed stays, as long as the question is the same.
    void setState(const AskView& view);

signals:
    /// A question with fields was answered: what stands in them.
    void submitRequested(const QStringList& fields);
    /// One of the answers.
    void choiceRequested(int choice);
    void backRequested();

private:
    void build(const AskView& view);
    void submit();

    AskView m_view;
    bool m_built = false;
    QVBoxLayout* m_layout;
    QWidget* m_content = nullptr;
    QLabel* m_notice = nullptr;
    QList<QLineEdit*> m_fields;
};

/// A label that shows text as it is, whatever it says, in one of the look's roles.
QLabel* plainLabel(const QString& words, const char* role, QWidget* parent);

} // namespace vh::join
