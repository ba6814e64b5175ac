#include "app/handout/flow.h"

namespace vh::handout
{

namespace
{

/// Lengths are sums of fractions: a piece that fits exactly must not be thrown out by the last bit.
constexpr double kSlack = 0.5;

class Pager
{
public:
    explicit Pager(double pageHeight) : m_pageHeight(pageHeight) { m_pages.emplace_back(); }

    [[nodiscard]] double used() const { return m_used; }
    [[nodiscard]] bool atTop() const { return m_pages.back().empty(); }
    [[nodiscard]] bool fits(double height) const { return m_used + height <= m_pageHeight + kSlack; }

    void turn()
    {
        m_pages.emplace_back();
        m_used = 0;
    }
    void room(double height) { m_used += height; }
    void place(const Block& block)
    {
        const QString* outline = block.outline.isEmpty() ? nullptr : &block.outline;
        for (const Piece& piece : block.pieces) {
            if (!fits(piece.height) && !atTop())
                turn();
            m_pages.back().push_back({&piece, m_used, std::exchange(outline, nullptr)});
            m_used += piece.height;
        }
    }
    std::vector<PlacedPage> take() { return std::move(m_pages); }

private:
    double m_pageHeight;
    double m_used = 0;
    std::vector<PlacedPage> m_pages;
};

/// The block after the run that has to stay together from here on, and how high the run is.
std::pair<std::size_t, double> togetherFrom(const Flow& flow, std::size_t first)
{
    double height = flow[first].height();
    std::size_t end = first + 1;
    while (end < flow.size() && flow[end - 1].keepsWithNext) {
        height += flow[end].before + flow[end].height();
        ++end;
    }
    return {end, height};
}

} // namespace

ElementRef elementOf(Element::Kind kind, const QString& alt)
{
    return std::make_shared<const Element>(Element{kind, alt});
}

double Block::height() const
{
    double sum = 0;
    for (const Piece& piece : pieces)
        sum += piece.height;
    return sum;
}

std::vector<PlacedPage> paginate(const Flow& flow, double pageHeight)
{
    Pager pager(pageHeight);
    for (std::size_t at = 0; at < flow.size();) {
        const auto [end, height] = togetherFrom(flow, at);
        if (!pager.atTop() && !pager.fits(flow[at].before + height))
            pager.turn();
        for (; at < end; ++at) {
            if (!pager.atTop())
                pager.room(flow[at].before);
            pager.place(flow[at]);
        }
    }
    return pager.take();
}

} // namespace vh::handout
