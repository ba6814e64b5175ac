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

signals:
    /// Readers have been told to say this now.
    void announced(const QString& sentence);

protected:
    /// What a reader says of this widget. The same again changes nothing.
    void say(const QString& sentence);
    /// The same, and readers are told to say it now.
    void alert(const QString& sentence);
    /// A new look: sizes and colours are asked for again.
    void changeEvent(QEvent* event) override;

private:
    QAccessible::Role m_role;
};

} // namespace vh
