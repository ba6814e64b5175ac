#pragma once
// A painted widget that a screen reader can speak: it carries a role and one sentence that says what it shows.
// GUI thread.
#include <QAccessible>
#include <QWidget>

namespace vh
{

class SpokenWidget : public QWidget
{
    Q_OBJECT
public:
    SpokenWidget(QAccessible::Role role, QWidget* parent);
    [[nodiscard]] QAccessible::Role role() const { return m_role; }

protected:
    enum class Announce { quietly, politely, atOnce };
    /// The sentence. Politely: readers say it when they next have time (name changed). At once: as an alert.
    void say(const QString& sentence, Announce announce = Announce::quietly);
    void changeEvent(QEvent* event) override;

private:
    QAccessible::Role m_role;
};

} // namespace vh
