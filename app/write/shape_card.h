#pragma once
// One shape a class can be laid out in: its name, what it is like in a sentence, and its rail. A radio button in every
// way but its looks: of those side by side one is chosen, arrows move, readers hear name and sentence. GUI thread.
#include "app/widgets/script_rail.h"

#include <QRadioButton>

namespace vh::write
{

class ShapeCard : public QRadioButton
{
    Q_OBJECT
public:
    ShapeCard(const QString& title, const QString& about, QWidget* parent);
    void setRail(const ScriptRail::State& rail);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool event(QEvent* event) override;
    [[nodiscard]] bool hitButton(const QPoint& at) const override { return rect().contains(at); }

private:
    [[nodiscard]] int wordsHeight() const;
    void place();

    QString m_about;
    ScriptRail* m_rail;
};

} // namespace vh::write
