#pragma once
// People as a calm list: name, and beside it what a helper wants to know. Typing a name finds it. 7, 8, 9 and 0 ask for
// the chosen person (desk_task.h); other keys of the desk mean nothing here. GUI thread.
#include "app/help/desk_task.h"
#include "app/help/people_model.h"

#include <QListView>

class QSortFilterProxyModel;

namespace vh::help
{

class PeopleList : public QListView
{
    Q_OBJECT
public:
    enum class Shows {
        everybody,
        resting, ///< who is quiet or out
    };
    PeopleList(Shows shows, const QString& accessibleName, const QString& whenEmpty, QWidget* parent = nullptr);
    void setPeople(PeopleModel* people);
    /// Null: nobody is chosen.
    [[nodiscard]] const PersonRow* chosen() const;
    [[nodiscard]] int rowHeight() const;

signals:
    void taskRequested(vh::help::DeskTask task);
    void chosenChanged();
    void focusChanged(bool has);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void rowsAboutToBeRemoved(const QModelIndex& parent, int start, int end) override;
    void selectionChanged(const QItemSelection& selected, const QItemSelection& deselected) override;

private:
    class Painter;
    [[nodiscard]] const PersonRow* rowAt(const QModelIndex& index) const;

    Shows m_shows;
    QString m_whenEmpty;
    PeopleModel* m_people = nullptr;
    QSortFilterProxyModel* m_some = nullptr;
};

} // namespace vh::help
