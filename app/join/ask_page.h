#pragma once
// One question on a screen: heading, a few words, something to write or a few large answers, cautions beside them.
// Enter submits. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QLabel;
class QLayout;
class QLineEdit;
class QScrollArea;
class QVBoxLayout;

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
    void build();
    void sayWords();
    void addFields(QVBoxLayout& column);
    [[nodiscard]] bool isLong() const;
    QLayout* answers();
    QWidget* cautions(QWidget* parent);
    void focusFirst();
    void submit();

    AskView m_view;
    bool m_built = false;
    QScrollArea* m_area; ///< for large text on a small screen
    QLabel* m_words = nullptr;
    QList<QLineEdit*> m_fields;
};

/// A label that shows text as it is, whatever it says, in one of the look's roles.
QLabel* plainLabel(const QString& words, const char* role, QWidget* parent);

} // namespace vh::join
