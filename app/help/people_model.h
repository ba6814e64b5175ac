#pragma once
// Who has come to this class, in the order of the seats, each with what a helper wants to know: line lost, came late,
// asked to be quiet, out; and how their voice stands, only where the leader and they themselves let helpers see it.
// Nobody moves; only what changed is signalled; thousands are fine. Whoever looks is left out. Qt's model, no widgets;
// one thread.
#include "common/base/clock.h"
#include "common/wire/binary.h"
#include "common/wire/to_client.h"

#include <QAbstractListModel>

#include <deque>
#include <unordered_map>
#include <vector>

namespace vh::help
{

struct PersonRow {
    std::uint32_t seat = 0;
    PersonId person;
    QString name;
    bool here = false;
    std::optional<Instant> lostAt;
    std::optional<Instant> cameAt; ///< while whoever looks was there already
    bool late = false;             ///< the class had begun
    wire::Rest rest = wire::Rest::none;
    Instant restUntil{};
    Standing standing = Standing::private_;
};

class PeopleModel : public QAbstractListModel
{
    Q_OBJECT
public:
    /// `restsRole`: true for who is quiet or out.
    enum Role { restsRole = Qt::UserRole };
    using QAbstractListModel::QAbstractListModel;

    void take(const wire::Seats& message, Instant now);
    void take(const wire::Roster& roster);
    void take(const wire::DeskNow& message);
    void setOwn(PersonId person);
    /// A new class: whoever is not here now has not come yet.
    void beginClass();
    /// From now on whoever comes is late.
    void setBegun(bool begun) { m_begun = begun; }
    /// Rests that have run out end; readers are not told of the time.
    void setNow(Instant now);

    [[nodiscard]] const std::vector<PersonRow>& rows() const { return m_rows; }
    /// Lines; not of those who were put out.
    [[nodiscard]] int lost() const;
    [[nodiscard]] int resting() const { return static_cast<int>(m_resting.size()); }
    /// Names of those who came within the last minute, the last first.
    [[nodiscard]] QStringList justCame() const;
    /// "line lost 20 s", "quiet until 10:12", "easy to hear, came late at 10:07"; may be empty.
    [[nodiscard]] QString wordsOf(const PersonRow& row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

signals:
    void timePassed();

private:
    struct Rests {
        wire::Rest rest = wire::Rest::none;
        Instant until{};
    };
    void take(const wire::SeatName& about, Instant now, bool isNews);
    void setRest(PersonRow& row) const;
    void changed(std::size_t at);
    [[nodiscard]] std::size_t placeOf(std::uint32_t seat) const;
    [[nodiscard]] PersonRow* rowOf(PersonId person);

    std::vector<PersonRow> m_rows; ///< by seat
    std::unordered_map<PersonId, std::uint32_t> m_seatOf;
    std::unordered_map<std::uint32_t, Standing> m_standings;
    std::unordered_map<PersonId, Rests> m_resting;
    std::deque<std::pair<Instant, QString>> m_came; ///< lately
    PersonId m_own;
    bool m_begun = false;
    bool m_levels = false;  ///< the leader lets helpers see them
    bool m_wasTold = false; ///< all who were here before
    Instant m_now{};
};

} // namespace vh::help
