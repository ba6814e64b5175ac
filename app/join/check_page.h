#pragma once
// The mic check: what to do, the line to read, how far it is, and which microphone. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QComboBox;
class QFrame;
class QLabel;
class QLayout;
class QProgressBar;

namespace vh
{
class BigButton;
class FittedText;
class LevelBar;
} // namespace vh

namespace vh::join
{

class CheckPage : public QWidget
{
    Q_OBJECT
public:
    explicit CheckPage(QWidget* parent = nullptr);
    void setState(const CheckView& view);

signals:
    void goOnRequested();
    void skipRequested();
    void deviceRequested(int device);

private:
    QLayout* controls();

    QLabel* m_heading;
    QLabel* m_words;
    QFrame* m_sheet;
    FittedText* m_line;
    QWidget* m_hearing;
    LevelBar* m_level;
    QProgressBar* m_progress;
    QLabel* m_deviceLabel;
    QComboBox* m_devices;
    QLabel* m_notice;
    BigButton* m_goOn;
    BigButton* m_skip;
    QString m_shownLine;
    QStringList m_shownDevices;
};

} // namespace vh::join
