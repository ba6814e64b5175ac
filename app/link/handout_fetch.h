#pragma once
// The day's handout over a line: knows whether there is one, and fetches it when the person wants it, part by part,
// never while a class runs. What does not match its hash and size, or is no PDF, is not given on. GUI thread; must not
// outlive the line and the follower.
#include "app/link/class_follow.h"

namespace vh::link
{

class HandoutFetch : public QObject
{
    Q_OBJECT
public:
    HandoutFetch(Line& line, ClassFollow& follow, QObject* parent = nullptr);

    /// Of the class that is open, or was the last; nothing when there is none.
    [[nodiscard]] const std::optional<wire::HandoutNow>& offered() const { return m_offered; }
    /// Answered by fetched() or failed(). Nothing happens while one is on its way, or where there is none.
    void fetch();
    [[nodiscard]] bool isFetching() const { return m_fetching; }

signals:
    /// There is one, another one, or none any more.
    void offeredChanged();
    void fetched(const QByteArray& pdf);
    /// The relay does not have it, or what came is not what was offered.
    void failed();

private:
    void take(const wire::ToClient& message);
    void offer(std::optional<wire::HandoutNow> handout);
    void look();
    void end();

    ClassFollow& m_follow;
    std::optional<wire::HandoutNow> m_offered;
    bool m_fetching = false;
};

} // namespace vh::link
