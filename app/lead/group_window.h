#pragma once
// The group's window: only what the group sees of a step, for a second display or for sharing. It never keeps the
// keyboard, so the keys stay with the leader. Where there is a second display it fills that one from the start. GUI
// thread.
#include "app/pictures/shown_view.h"
#include "app/widgets/class_sheet.h"

class QScreen;
class QStackedLayout;

namespace vh::lead
{

/// Which of `count` displays comes after `now`; with one there is no other.
constexpr int displayAfter(int now, int count)
{
    return count < 2 ? now : (now + 1) % count;
}

class GroupWindow : public QWidget
{
    Q_OBJECT
public:
    explicit GroupWindow(QWidget* parent = nullptr);
    /// `shown`: a picture that she shows to all stands before the class.
    void setState(const ClassSheet::State& state, const QString& title, const pictures::ShownPicture& shown = {});

    /// Shows it: on another display than the leader's own window, filling it, where there is one.
    void appear(const QWidget& leaders);
    void setFills(bool fills);
    [[nodiscard]] bool fills() const { return isFullScreen(); }
    void toNextDisplay();
    [[nodiscard]] static bool otherDisplays();

signals:
    /// Closed by its own frame.
    void hideRequested();
    /// A window manager has given it the keyboard all the same.
    void keyboardUnwanted();

protected:
    void closeEvent(QCloseEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void moveTo(const QScreen& display);

    ClassSheet* m_sheet;
    pictures::ShownView* m_picture;
    QStackedLayout* m_pages;
    ClassSheet::State m_shown;
    bool m_told = false;
};

} // namespace vh::lead
