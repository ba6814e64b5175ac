#include "server/ops/metrics.h"

namespace vh::ops
{

namespace
{

void line(std::string& text, const char* name, const char* type, const char* help, std::uint64_t value)
{
    const std::string full = std::string("voicehall_") + name;
    text += "# HELP " + full + " " + help + "\n# TYPE " + full + " " + type + "\n" + full + " " +
            std::to_string(value) + "\n";
}

} // namespace

net::Counters operator+(const net::Counters& a, const net::Counters& b)
{
    net::Counters sum = a;
    sum.framesOut += b.framesOut;
    sum.logSends += b.logSends;
    sum.privateOut += b.privateOut;
    sum.bytesOut += b.bytesOut;
    sum.skippedDroppable += b.skippedDroppable;
    sum.skippedLasting += b.skippedLasting;
    sum.droppedNewest += b.droppedNewest;
    sum.bytesIn += b.bytesIn;
    sum.messagesIn += b.messagesIn;
    sum.soundOverLimit += b.soundOverLimit;
    sum.accepted += b.accepted;
    sum.refusedFull += b.refusedFull;
    sum.acceptPauses += b.acceptPauses;
    sum.open += b.open;
    for (std::size_t i = 0; i < sum.closed.size(); ++i)
        sum.closed[i] += b.closed[i];
    return sum;
}

std::string prometheusText(const Numbers& numbers)
{
    std::string text;
    const net::Counters& net = numbers.net;
    line(text, "lines_open", "gauge", "WebSocket lines open now.", net.open);
    line(text, "halls", "gauge", "Groups held in memory.", numbers.halls);
    line(text, "lines_accepted_total", "counter", "Connections accepted.", net.accepted);
    line(text, "lines_refused_total", "counter", "Connections refused because the relay was full.", net.refusedFull);
    line(text, "frames_out_total", "counter", "Frames written from hall logs.", net.framesOut);
    line(text, "log_sends_total", "counter", "Writes that carried them.", net.logSends);
    line(text, "private_frames_out_total", "counter", "Private frames written.", net.privateOut);
    line(text, "bytes_out_total", "counter", "Bytes written.", net.bytesOut);
    line(text, "bytes_in_total", "counter", "Bytes read.", net.bytesIn);
    line(text, "messages_in_total", "counter", "Messages read.", net.messagesIn);
    line(text, "sound_over_limit_total", "counter", "Sound frames not carried: too many from one sender.",
         net.soundOverLimit);
    line(text, "skipped_droppable_total", "counter", "Live frames not sent to lines that were behind.",
         net.skippedDroppable);
    line(text, "skipped_lasting_total", "counter", "Lasting frames replaced by a fresh snapshot.", net.skippedLasting);
    text += "# HELP voicehall_lines_closed_total Lines ended, by reason.\n"
            "# TYPE voicehall_lines_closed_total counter\n";
    for (std::size_t i = 0; i < net.closed.size(); ++i)
        text += std::string("voicehall_lines_closed_total{reason=\"") + net::nameOf(static_cast<net::CloseReason>(i)) +
                "\"} " + std::to_string(net.closed[i]) + "\n";
    line(text, "store_jobs_total", "counter", "Jobs the store has answered.", numbers.store.jobs);
    line(text, "store_commits_total", "counter", "Groups of jobs on disk.", numbers.store.commits);
    line(text, "store_failed_commits_total", "counter", "Commits that failed.", numbers.store.failedCommits);
    line(text, "store_refused_total", "counter", "Jobs refused because the queue was full.", numbers.store.refused);
    line(text, "store_waiting", "gauge", "Jobs waiting.", numbers.store.waiting);
    line(text, "pictures_made_total", "counter", "Pictures made anew.", numbers.pictures.made);
    line(text, "pictures_refused_total", "counter", "Files that were no picture, or none that can be shown.",
         numbers.pictures.refused);
    line(text, "pictures_broken_total", "counter", "Pictures that broke the process they were read in.",
         numbers.pictures.broken);
    return text;
}

} // namespace vh::ops
