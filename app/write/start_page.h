#pragma once
// A class from a theme: what it is about, a dozen words, how long, in which shape; Enter lays it out. Everything is on
// one page, and theme and Enter are enough. The shapes are those that come with the program and those of the leader's
// own last classes. Shows what will be ready and what is left to write before it is made. Part of the writing room. GUI
// thread.
#include "app/widgets/notice_line.h"
#include "common/script/shapes.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QScrollArea;
class QVBoxLayout;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class ShapeCard;

class StartPage : public QWidget
{
    Q_OBJECT
public:
    struct State {
        std::vector<ClassScript> earlier; ///< hers, newest first; each lends its shape
        OwnPace pace;
        int minutes = 20;      ///< as her group is used to
        std::uint64_t day = 0; ///< for which the class is: days since some day
    };

    explicit StartPage(QWidget* parent = nullptr);
    /// Begins afresh.
    void setState(const State& state);

signals:
    void laidOut(const vh::ClassScript& script);
    void leaveRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    QWidget* makeFields();
    QWidget* makeShapes();
    QWidget* makePreview();
    QLineEdit* field(const QString& words, QWidget* parent, QVBoxLayout& column);
    void fillShapes();
    void drawRails();
    void refresh();
    void make();
    [[nodiscard]] Theme theme() const;
    [[nodiscard]] ClassScript scriptIn(std::size_t shape) const;
    [[nodiscard]] std::size_t chosen() const;
    [[nodiscard]] bool minutesAreRight() const;
    [[nodiscard]] QString missing() const;

    State m_state;
    QLineEdit* m_theme;
    QLineEdit* m_words;
    QLineEdit* m_minutes;
    QScrollArea* m_scroll;
    QWidget* m_shapes;
    std::vector<ShapeCard*> m_cards;
    QLabel* m_heading;
    QLabel* m_length;
    QLabel* m_ready;
    QLabel* m_open;
    QLabel* m_pace;
    NoticeLine* m_notice;
    BigButton* m_make;
};

} // namespace vh::write
