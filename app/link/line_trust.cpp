// Whose key this is: with a pin the key alone decides; without one the system does; by a typed code a key that nobody
// vouches for may be looked at, and is compared by its four words before anything is entrusted to it.
#include "app/link/line.h"

#include <QSslCertificate>
#include <QSslConfiguration>
#include <QSslError>
#include <QSslKey>

#include <algorithm>

namespace vh::link
{

namespace
{

/// SHA-256 of the SubjectPublicKeyInfo, as the relay's links carry it.
std::optional<wire::Hash> pinOf(const QSslCertificate& certificate)
{
    const QByteArray der = certificate.isNull() ? QByteArray() : certificate.publicKey().toDer();
    if (der.isEmpty())
        return std::nullopt;
    return wire::sha256({der.constData(), static_cast<std::size_t>(der.size())});
}

/// What a key of the relay's own looks like; anything else is a certificate that is not in order.
bool mayBeOwnKey(QSslError::SslError error)
{
    return error == QSslError::SelfSignedCertificate || error == QSslError::SelfSignedCertificateInChain ||
           error == QSslError::UnableToGetLocalIssuerCertificate ||
           error == QSslError::UnableToVerifyFirstCertificate || error == QSslError::CertificateUntrusted ||
           error == QSslError::HostNameMismatch;
}

} // namespace

void Line::onSslErrors(const QList<QSslError>& errors)
{
    const auto pin = pinOf(m_socket->sslConfiguration().peerCertificate());
    if (pin && m_entry.pin)
        return m_socket->ignoreSslErrors(); // the key alone decides: keyIsRight
    const bool ownKey =
        std::all_of(errors.begin(), errors.end(), [](const QSslError& each) { return mayBeOwnKey(each.error()); });
    // By the code alone a newcomer may look, and compares the four words by voice before anything is entrusted. A known
    // device was given the pin when it was let in, or came by a public certificate and expects it again.
    if (!pin || !ownKey || m_entry.how != Entry::How::knock || (m_welcome && !m_seenPin))
        return endUnsure();
    if (m_seenPin && m_seenPin != pin)
        return endChangedKey();
    m_seenPin = pin;
    m_socket->ignoreSslErrors();
}

void Line::trustSeenKey()
{
    if (!m_entry.pin)
        m_entry.pin = m_seenPin;
}

bool Line::keyIsRight() const
{
    return !m_entry.pin || m_entry.plain || pinOf(m_socket->sslConfiguration().peerCertificate()) == m_entry.pin;
}

void Line::endUnsure()
{
    end(tr("Voicehall could not make sure that this is really %1, and stops here, to keep you safe. Please ask whoever "
           "runs your group.")
            .arg(QString::fromStdString(m_entry.host)));
}

void Line::endChangedKey()
{
    end(tr("This is not the relay that you joined before: its key has changed. Voicehall stops here, to keep you safe. "
           "Please ask whoever runs your group for a new link."));
}

} // namespace vh::link
