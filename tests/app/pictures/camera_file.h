#pragma once
// A photograph as a telephone writes it, made by hand: a JPEG that carries Exif (camera, way up, place), a colour
// profile, a comment and something behind its end. By Exif 2.32 (CIPA DC-008-2019, section 4.6) and ITU-T T.81 annex B.
#include <QBuffer>
#include <QColorSpace>
#include <QImage>
#include <QImageWriter>

namespace vh::testing
{

inline QByteArray number(int value, int bytes)
{
    QByteArray all;
    for (int i = 0; i < bytes; ++i)
        all.append(static_cast<char>(value >> (8 * i)));
    return all;
}

/// One entry of a TIFF directory, little endian.
inline QByteArray entry(int tag, int type, int count, int value)
{
    return number(tag, 2) + number(type, 2) + number(count, 4) + number(value, 4);
}

/// With the way up `orientation` (6: the camera was held on its side, to be turned a quarter clockwise).
inline QByteArray exifSegment(int orientation)
{
    const QByteArray camera("Harbour Optics 7", 17);
    constexpr int kFirst = 8;
    constexpr int kCameraAt = kFirst + 2 + 3 * 12 + 4;
    const int placeAt = kCameraAt + static_cast<int>(camera.size());
    QByteArray tiff = QByteArray("II*\0", 4) + number(kFirst, 4);
    tiff += number(3, 2) + entry(0x010F, 2, static_cast<int>(camera.size()), kCameraAt) +
            entry(0x0112, 3, 1, orientation) + entry(0x8825, 4, 1, placeAt) + number(0, 4);
    tiff += camera;
    tiff += number(1, 2) + entry(0x0001, 2, 2, 'N') + number(0, 4); // GPSLatitudeRef
    const QByteArray body = QByteArray("Exif\0\0", 6) + tiff;
    const int length = static_cast<int>(body.size()) + 2;
    return QByteArray("\xff\xe1", 2) + static_cast<char>(length >> 8) + static_cast<char>(length & 255) + body;
}

inline QByteArray cameraFile(const QImage& image, int orientation)
{
    QImage carrying = image;
    carrying.setColorSpace(QColorSpace(QColorSpace::DisplayP3));
    carrying.setText("Comment", "taken by Jonas at home");
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, "jpeg");
    writer.setQuality(95);
    if (!writer.write(carrying))
        return {};
    bytes.insert(2, exifSegment(orientation));
    return bytes + "and a film behind its end";
}

/// The markers of a JPEG's segments up to its scan, as hexadecimal numbers.
inline QStringList segmentsOf(const QByteArray& jpeg)
{
    QStringList all;
    for (qsizetype at = 2; at + 4 <= jpeg.size();) {
        const auto byte = [&](qsizetype i) { return static_cast<unsigned char>(jpeg[i]); };
        if (byte(at) != 0xff)
            return {"broken"};
        all.append(QString::number(byte(at + 1), 16));
        if (byte(at + 1) == 0xda)
            break;
        at += 2 + 256 * byte(at + 2) + byte(at + 3);
    }
    return all;
}

/// The names of a PNG's chunks.
inline QStringList chunksOf(const QByteArray& png)
{
    QStringList all;
    for (qsizetype at = 8; at + 12 <= png.size();) {
        qsizetype length = 0;
        for (int i = 0; i < 4; ++i)
            length = 256 * length + static_cast<unsigned char>(png[at + i]);
        all.append(QString::fromLatin1(png.mid(at + 4, 4)));
        at += 12 + length;
    }
    return all;
}

} // namespace vh::testing
