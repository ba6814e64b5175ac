#pragma once
// One place for two things: where the class is, and, while there is something to be told, that instead. Always as high;
// words that are too many become smaller, and stand in two lines. GUI thread.
#include "app/widgets/notice_line.h"

class QLabel;

namespace vh::help
{

class HeadLine : public QWidget
{
    Q_OBJECT
public:
    explicit HeadLine(QWidget* parent = nullptr);
    void setState(const QString& calm, const NoticeLine::State& notice);
    [[nodiscard]] QSize sizeHint() const override { return {400, kHeight}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, kHeight}; }

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    static constexpr int kHeight = 60;
    void place();

    QLabel* m_calm;
    NoticeLine* m_notice;
};

} // namespace vh::help
