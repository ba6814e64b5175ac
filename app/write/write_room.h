#pragma once
// The room in which classes are written: the library, the group's days, and the pages of whoever lays out, edits and
// rehearses a class. It shows one of them; what they ask for is heard by WriteControl. GUI thread.
#include "app/write/days_page.h"
#include "app/write/library_page.h"

class QStackedLayout;

namespace vh::write
{

class WriteRoom : public QWidget
{
    Q_OBJECT
public:
    explicit WriteRoom(QWidget* parent = nullptr);

    [[nodiscard]] LibraryPage& library() { return *m_library; }
    [[nodiscard]] DaysPage& days() { return *m_days; }
    /// Another page, of this room from now on.
    void add(QWidget* page);
    /// Whoever shows a page gives it the keyboard.
    void show(QWidget* page);
    [[nodiscard]] QWidget* shown() const;
    using QWidget::show;

protected:
    void focusInEvent(QFocusEvent* event) override;

private:
    QStackedLayout* m_pages;
    LibraryPage* m_library;
    DaysPage* m_days;
};

} // namespace vh::write
