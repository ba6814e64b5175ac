#pragma once
// The handout of the class that is being opened: made in the background while the relay is asked, then put there in
// parts and offered to the group. A class without a handout goes on just the same. GUI thread; the line must outlive
// it.
#include "app/handout/handout.h"
#include "app/link/line.h"

#include <set>

namespace vh::lead
{

class HandoutOffer : public QObject
{
    Q_OBJECT
public:
    explicit HandoutOffer(link::Line& line, QObject* parent = nullptr);
    ~HandoutOffer() override;

    /// Begins to make it. Whatever was under way is let go.
    void make(const ClassScript& script, const QString& folder, const handout::HandoutOptions& options);
    /// The class is open: what was made is offered for it, as soon as it is ready.
    void offerFor(ClassId id);

signals:
    void offered();
    /// In words for the leader.
    void failed(const QString& why);

private:
    void made(const Result<QByteArray>& pdf);
    void put();
    void answered(const RequestId& id, const Error* error);
    void forget();

    link::Line& m_line;
    quint64 m_run = 0; ///< of make(): what an older one made is not used
    QByteArray m_pdf;
    std::optional<ClassId> m_class;
    wire::OfferHandout m_offer;
    std::set<RequestId> m_parts; ///< put, not answered yet
    std::optional<RequestId> m_asked;
};

} // namespace vh::lead
