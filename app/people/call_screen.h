#pragma once
// A call for help that nobody has taken for 30 s, over the whole of the leader's room: who, since when, where, whom to
// ring. H takes it, A sets it aside (it stays in the list of calls). All other keys go on to whoever had them, so that
// the class can be led meanwhile; Esc does nothing. Covers its parent; without a call it is hidden. GUI thread.
#include <QWidget>

#include <cstdint>
#include <optional>

class QLabel;

namespace vh
{

class BigButton;

class CallScreen : public QWidget
{
    Q_OBJECT
public:
    struct State {
        std::uint64_t call = 0;
        QString heading; ///< "Greta needs help"
        QString since;
        QString where; ///< empty, and the other too: not here yet
        QString ring;
        QString said;      ///< of when where and ring are, if not of today; may be empty
        QString meanwhile; ///< what the class is at; may be empty
        friend bool operator==(const State&, const State&) = default;
    };

    explicit CallScreen(QWidget* parent);
    void setState(const std::optional<State>& state);

signals:
    void takeRequested(quint64 call);
    void asideRequested(quint64 call);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void colour();
    void cover();

    std::optional<State> m_state;
    QLabel* m_heading;
    QLabel* m_since;
    QLabel* m_whereHead;
    QLabel* m_where;
    QLabel* m_ringHead;
    QLabel* m_ring;
    QLabel* m_said;
    QLabel* m_emergency;
    QLabel* m_meanwhile;
    BigButton* m_take;
    BigButton* m_aside;
};

} // namespace vh
