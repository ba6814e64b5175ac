#pragma once
// A list of what people wrote, as cards. The chosen card stays chosen and nothing that is in sight moves: what comes in
// above shifts the scroll bar, not the cards; what was dealt with goes once it is out of sight. A chosen card that goes
// leaves nothing chosen, so that a key meant for one line never falls on another. Keys (desk_task.h) ask, once for a
// burst of presses. GUI thread.
#include "app/help/desk_task.h"
#include "app/help/word_cards.h"
#include "app/widgets/press_filter.h"

#include <QListView>
#include <QPersistentModelIndex>

namespace vh::help
{

class WordList : public QListView
{
    Q_OBJECT
public:
    enum class Shows {
        oldest, ///< what is to read: on to the next from the top
        newest, ///< the end of the list stays in sight, unless somebody has scrolled away from it
    };
    WordList(Shows shows, const QString& accessibleName, const QString& whenEmpty, QWidget* parent = nullptr);

    void setWords(WordsModel* words);
    [[nodiscard]] WordsModel* words() const { return m_words; }
    /// Null: nothing is chosen.
    [[nodiscard]] const WordRow* chosen() const;
    /// Now, or as soon as it comes in.
    void choose(std::uint64_t item);
    /// The chosen line has been dealt with here: on to the next one that is to be read; as soon as one comes, if there
    /// is none.
    void goOn();
    /// Tests hand in theirs; it must outlive the list.
    void setClock(const Clock& clock) { m_clock = &clock; }

signals:
    void taskRequested(vh::help::DeskTask task);
    /// Another card, or none.
    void chosenChanged();
    /// The keyboard has come, or gone.
    void focusChanged(bool has);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void keyboardSearch(const QString& /*search*/) override {} // letters are tasks here
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void doItemsLayout() override;
    void rowsAboutToBeRemoved(const QModelIndex& parent, int start, int end) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    void selectionChanged(const QItemSelection& selected, const QItemSelection& deselected) override;

private:
    [[nodiscard]] QModelIndex cardAt(int y);
    void holdStill();
    void forget();
    void chooseIfWanted();

    Shows m_shows;
    QString m_whenEmpty;
    WordsModel* m_words = nullptr;
    WordCards* m_cards;
    QPersistentModelIndex m_held; ///< a card in sight that is to stay where it is, over the next layout
    int m_heldTop = 0;
    bool m_atEnd = true;
    bool m_waitsForNext = true;
    std::uint64_t m_wanted = 0;
    const Clock* m_clock;
    PressFilter m_filter;
    std::optional<DeskTask> m_lastTask;
};

} // namespace vh::help
