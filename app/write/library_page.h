#pragma once
// The library: a field to search in, the classes below it, a look at the chosen one beside it, and what can be done
// with it. Becomes the LibraryView it is given; what is pressed goes out. The field keeps the keyboard: arrows move
// through the classes, Enter writes the chosen one (or plans it, where one is wanted for a day). Ctrl+N new class,
// F5 rehearse, Ctrl+P handout, Ctrl+D plan for a day, Ctrl+C with the list copies, F2 another title, Delete with
// the list puts aside, Ctrl+Z puts back, Esc empties the field. GUI thread.
#include "app/write/library_view.h"

class QLabel;
class QLineEdit;
class QLayout;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class ClassLookPanel;

class LibraryPage : public QWidget
{
    Q_OBJECT
public:
    explicit LibraryPage(QWidget* parent = nullptr);
    void setState(const LibraryView& view);
    /// The keyboard goes where one begins: to the field.
    void begin();

signals:
    void searchRequested(const QString& query);
    void rowRequested(int row);
    void newRequested();
    void writeRequested();
    void rehearseRequested();
    void handoutRequested();
    void copyRequested();
    void planRequested();
    /// The field for the title is wanted, given up; or a title is given.
    void renameRequested();
    void renameGivenUp();
    void titleRequested(const QString& title);
    void putAsideRequested();
    void putBackRequested();
    void daysRequested();
    void groupRequested(); ///< the next one
    void backRequested();  ///< out of the room; or to the days, where a class is wanted for one

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QLayout* makeHead();
    QWidget* makeFind();
    QWidget* makeChosen();
    void makeKeys();
    void press();

    LibraryView m_shown;
    QLabel* m_title;
    BigButton* m_group;
    BigButton* m_days;
    BigButton* m_new;
    BigButton* m_back;
    NoticeLine* m_notice;
    BigButton* m_putBack;
    QLineEdit* m_find;
    QLabel* m_count;
    RowList* m_list;
    ClassLookPanel* m_look;
    BigButton* m_write;
    BigButton* m_rehearse;
    BigButton* m_handout;
    BigButton* m_plan;
    BigButton* m_copy;
    BigButton* m_rename;
    BigButton* m_aside;
};

} // namespace vh::write
