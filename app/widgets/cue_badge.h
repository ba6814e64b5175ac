#pragma once
// Whose turn it is: "You, with more voice". For the participant one large badge at the text (>= 32 px); for the leader
// the four turns in a row with the present one filled (TurnRow). GUI thread.
#include "app/widgets/spoken_widget.h"
#include "common/script/script.h"

#include <QStringList>

#include <optional>

namespace vh
{

/// "Listen", "Ready", "With me", "You".
QString wordsOf(TurnKind turn);

class CueBadge : public SpokenWidget
{
    Q_OBJECT
public:
    struct State {
        std::optional<TurnKind> turn; ///< none: a pause, or nothing going on; then `words` alone
        bool moreVoice = false;
        QString words; ///< said instead, where there is no turn ("Water pause")
        friend bool operator==(const State&, const State&) = default;
    };
    /// What the badge says of a state.
    static QString wordsOf(const State& state);

    explicit CueBadge(QWidget* parent = nullptr);
    void setState(const State& state);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    State m_state;
};

class TurnRow : public SpokenWidget
{
    Q_OBJECT
public:
    struct State {
        std::vector<TurnKind> turns; ///< of this round, in order
        int current = -1;            ///< index into turns; -1: none
        QStringList beside;          ///< "second time, with more voice, 0:04", then shorter; the first that fits
        friend bool operator==(const State&, const State&) = default;
    };

    explicit TurnRow(QWidget* parent = nullptr);
    void setState(const State& state);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    /// Where the four turns leave no room for the words beside them, those stand below; for every turn then, so that
    /// nothing jumps.
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    /// The wording that is painted.
    [[nodiscard]] QString besideShown() const;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] double chipsWidth() const;
    State m_state;
};

} // namespace vh
