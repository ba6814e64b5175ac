#pragma once
// A look at the chosen class: its rail, how each part begins, what of it was used lately; or what is to be mended in
// its file. In it the class can get another title. Part of LibraryPage. GUI thread.
#include "app/write/library_view.h"

#include <QFrame>

class QGridLayout;
class QLabel;
class QLineEdit;
class QScrollArea;
class QStackedLayout;

namespace vh::write
{

class ClassLookPanel : public QFrame
{
    Q_OBJECT
public:
    explicit ClassLookPanel(QWidget* parent);
    void setState(const ClassLook& look, bool renaming);
    /// What stands in the field for the title.
    [[nodiscard]] QString title() const;

signals:
    void titleRequested(const QString& title);
    void titleGivenUp();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget* makeHead();
    void setLines(const ClassLook& look);

    ClassLook m_shown;
    QStackedLayout* m_head;
    QLabel* m_title;
    QLineEdit* m_edit;
    QLabel* m_about;
    QFrame* m_usedBox;
    QLabel* m_used;
    ScriptRail* m_rail;
    QScrollArea* m_scroll;
    QWidget* m_body;
    QGridLayout* m_lines;
};

} // namespace vh::write
