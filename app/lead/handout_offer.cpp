#include "app/lead/handout_offer.h"

#include "common/base/base64.h"
#include "common/wire/login_text.h"

#include <QFutureWatcher>
#include <QtConcurrentRun>

#include <algorithm>

namespace vh::lead
{

namespace
{

std::string_view viewOf(const QByteArray& bytes)
{
    return {bytes.constData(), static_cast<std::size_t>(bytes.size())};
}

} // namespace

HandoutOffer::HandoutOffer(link::Line& line, QObject* parent) : QObject(parent), m_line(line)
{
    static_assert(handout::kMostHandoutBytes == static_cast<qsizetype>(wire::kHandoutBytes));
    connect(&line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack&, const Error* error) { answered(id, error); });
}

HandoutOffer::~HandoutOffer()
{
    for (auto* watcher : findChildren<QFutureWatcherBase*>()) // it reads nothing of ours, but may use the typeface
        watcher->waitForFinished();
}

void HandoutOffer::make(const ClassScript& script, const QString& folder, const handout::HandoutOptions& options)
{
    forget();
    auto* watcher = new QFutureWatcher<Result<QByteArray>>(this);
    connect(watcher, &QFutureWatcherBase::finished, this, [this, watcher, run = m_run] {
        watcher->deleteLater();
        if (run == m_run)
            made(watcher->result());
    });
    watcher->setFuture(
        QtConcurrent::run([script, folder, options] { return handout::handoutPdf(script, folder, options); }));
}

void HandoutOffer::forget()
{
    ++m_run;
    for (const RequestId& id : m_parts)
        m_line.drop(id);
    m_parts.clear();
    m_pdf.clear();
    m_class.reset();
    m_asked.reset();
}

void HandoutOffer::made(const Result<QByteArray>& pdf)
{
    if (!pdf) {
        forget();
        emit failed(QString::fromStdString(pdf.error().message));
        return;
    }
    m_pdf = *pdf;
    put();
}

void HandoutOffer::offerFor(ClassId id)
{
    m_class = id;
    put();
}

void HandoutOffer::put()
{
    if (!m_class || m_pdf.isEmpty())
        return;
    m_offer = {{}, *m_class, static_cast<std::uint32_t>(m_pdf.size()), wire::sha256(viewOf(m_pdf)), {}};
    constexpr auto kMost = static_cast<qsizetype>(wire::kPartPutBytes);
    for (qsizetype at = 0; at < m_pdf.size(); at += kMost) {
        const QByteArray part = m_pdf.mid(at, kMost);
        const wire::Hash hash = wire::sha256(viewOf(part));
        const std::span bytes(reinterpret_cast<const std::uint8_t*>(part.constData()),
                              static_cast<std::size_t>(part.size()));
        m_offer.parts.push_back(hash);
        m_parts.insert(m_line.ask(wire::PartPut{{}, hash, base64Of(bytes)}));
    }
    m_pdf.clear();
}

void HandoutOffer::answered(const RequestId& id, const Error* error)
{
    const bool part = m_parts.erase(id) > 0;
    if (!part && id != m_asked)
        return;
    if (error) {
        forget();
        emit failed(QString::fromStdString(error->message));
    } else if (!part) {
        forget();
        emit offered();
    } else if (m_parts.empty()) {
        m_asked = m_line.ask(m_offer);
    }
}

} // namespace vh::lead
