#pragma once
// A screen of the mic check: what to do, the line to read, how far it is, and which microphone. GUI thread.
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
    void pressed(vh::join::CheckPress press);
    void deviceRequested(int device);

private:
    QLayout* head();
    QLayout* controls();
    QWidget* deviceRow();

    QLabel* m_heading;
    QLabel* m_where;
    QLabel* m_words;
    QFrame* m_sheet;
    FittedText* m_line;
    QWidget* m_hearing;
    LevelBar* m_level;
    QProgressBar* m_progress;
    QWidget* m_deviceRow;
    QLabel* m_deviceLabel;
    QComboBox* m_devices;
    QLabel* m_notice;
    BigButton* m_goOn;
    BigButton* m_skip;
    BigButton* m_more;
    BigButton* m_back;
    QString m_shownLine;
    QStringList m_shownDevices;
};

} // namespace vh::join
