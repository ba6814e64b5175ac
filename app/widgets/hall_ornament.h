#pragma once
// An ornament where a page has room to spare: the seats of a hall in gentle arcs, each with its voice column. It means
// nothing and is no control; a reader does not hear of it, and it takes whatever is left. GUI thread.
#include <QWidget>

namespace vh
{

class HallOrnament : public QWidget
{
    Q_OBJECT
public:
    explicit HallOrnament(QWidget* parent = nullptr);

protected:
    void paintEvent(QPaintEvent* event) override;
};

} // namespace vh
