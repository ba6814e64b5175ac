#pragma once
// The page on which a class is written: the class in proportion to time on top; its parts and steps at the left; what
// is chosen in the middle; at the right a home's sheet, live, and what there is to say. Becomes the view it is given;
// what is typed or pressed goes out. Its keys: editor_keys.cpp. GUI thread.
#include "app/write/page_parts.h"
#include "app/write/round_edits.h"

#include <QWidget>

class QLayout;
class QLabel;
class QStackedLayout;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class AskPanel;
class ClassSide;
class PartSide;
class PictureSide;
class RemarksBox;
class SheetPreview;
class StepList;
class TurnsSide;
class WordsSide;

class EditorPage : public QWidget
{
    Q_OBJECT
public:
    explicit EditorPage(QWidget* parent = nullptr);
    void setState(const EditorView& view);
    /// The keyboard goes to the fields of what is chosen; in a text, to bytes [begin, end), or to its end.
    void toFields(std::uint32_t begin = 0, std::uint32_t end = 0);
    void toSide(Side side);
    void toRound(int round);
    [[nodiscard]] Side side() const { return m_side; }
    [[nodiscard]] TurnSpot turn() const;
    void chooseTurn(TurnSpot at);
    [[nodiscard]] int caret() const;
    /// Of the remarks; -1: none.
    [[nodiscard]] int chosenRemark() const;
    void chooseRemark(int remark);

signals:
    /// Everything but what the page does by itself: changing sides, marking where the caret stands.
    void pressed(vh::write::Press press);
    void answered(vh::write::EditorAnswer answer);
    void spotRequested(const vh::write::Spot& spot);
    void remarkRequested(int remark);
    void titleTyped(const QString& title);
    void themeTyped(const QString& theme);
    void languageTyped(const QString& language);
    void minutesTyped(int minutes);
    void partTitleTyped(const QString& title);
    void partKindChosen(vh::SectionKind kind);
    void textTyped(const QString& text, int caret);
    void textDone(); ///< Enter in a step's text
    void linesPasted(const QString& lines); ///< into a step's text that is empty
    void noteTyped(const QString& note);
    void markRequested(int begin, int end);
    void roundEditRequested(vh::write::RoundEdit edit);
    void secondsRequested(double seconds);
    void dearnessChosen(int dearness);
    void descriptionTyped(const QString& description);

protected:
    bool eventFilter(QObject* object, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QWidget* makeDesk();
    QLayout* makeHead();
    QLayout* makeActions();
    QWidget* makeFields();
    QWidget* makeSides(QWidget* parent);
    QWidget* makeRight();
    void makeShortcuts();
    BigButton* button(Press press, QLayout* row, KeyAt keyAt);
    void press(Press press);
    void showHead();
    void showStep();

    QStackedLayout* m_pages;
    AskPanel* m_ask;
    QWidget* m_desk = nullptr;
    QLabel* m_title = nullptr;
    QLabel* m_times = nullptr;
    NoticeLine* m_kept = nullptr;
    ScriptRail* m_rail = nullptr;
    StepList* m_list = nullptr;
    QStackedLayout* m_fields = nullptr;
    ClassSide* m_whole = nullptr;
    PartSide* m_part = nullptr;
    QWidget* m_step = nullptr;
    QStackedLayout* m_sides = nullptr;
    WordsSide* m_words = nullptr;
    TurnsSide* m_turns = nullptr;
    PictureSide* m_picture = nullptr;
    SheetPreview* m_sheet = nullptr;
    RemarksBox* m_remarks = nullptr;
    QHash<int, BigButton*> m_buttons;
    EditorView m_view;
    Side m_side = Side::words;
};

} // namespace vh::write
