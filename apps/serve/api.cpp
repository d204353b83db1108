#include "serve/api.h"

#include <algorithm>

#include "serve/glance.h"

namespace lapwright::serve {

namespace {

constexpr std::string_view kJobs = "/api/jobs";
constexpr std::string_view kBin = "/api/bin";

Reply json(int status, std::string body) {
  Reply reply;
  reply.status = status;
  reply.type = "application/json";
  reply.fields = {{"Cache-Control", "no-store"}};
  reply.body = std::move(body) + "\n";
  return reply;
}

// `code` is for programs, which have their own words in their own language.
Reply fault(int status, std::string_view code, std::string_view text) {
  return json(status, R"({"code":)" + json_text(code) + R"(,"text":)" + json_text(text) + "}");
}

Reply not_found() {
  return fault(404, "not-found", "There is no such job in the folder.");
}

void add_tag(Reply& reply, const Job& job) {
  reply.fields.push_back({"ETag", '"' + job.revision + '"'});
}

// The members that say which job it is, without braces.
std::string members_of(const Job& job) {
  return R"("id":)" + json_text(job.id) + R"(,"revision":)" + json_text(job.revision) + R"(,"bytes":)" +
         std::to_string(job.bytes.size()) + R"(,"changed":)" + std::to_string(job.changed);
}

std::string row_of(const Job& job) {
  const Glance glance = glance_at(job.bytes);
  return "{" + members_of(job) + R"(,"title":)" + json_text(glance.title) + R"(,"sound":)" +
         (glance.fault.empty() ? "true" : "false") + "}";
}

Reply list(std::string_view name, const std::vector<std::string>& ids, auto read) {
  std::string rows;
  for (const std::string& id : ids) {
    const std::optional<Job> job = read(id);
    if (!job) continue;  // a link, a folder, or gone since
    rows += (rows.empty() ? "" : ",\n") + row_of(*job);
  }
  return json(200, "{" + json_text(name) + ":[" + rows + "]}");
}

Reply whole(std::optional<Job> job) {
  if (!job) return not_found();
  Reply reply = json(200, {});
  reply.body = std::move(job->bytes);
  add_tag(reply, *job);
  return reply;
}

// The revision that a write builds on, out of its field: `"0123..."`. Empty when that is not what stands
// there.
std::string revision_in(const std::string& value) {
  if (value.size() != 34 || value.front() != '"' || value.back() != '"') return {};
  return value.substr(1, 32);
}

struct Expected {
  bool said = false;
  std::string revision;  // empty: no job yet
};

Expected expected_by(const Head& head) {
  const std::string* match = head.find("if-match");
  const std::string* none = head.find("if-none-match");
  if (match != nullptr && none == nullptr) {
    std::string revision = revision_in(*match);
    return {!revision.empty(), std::move(revision)};
  }
  return {match == nullptr && none != nullptr && *none == "*", {}};
}

// What is there instead, so that the person can see both.
Reply conflict(const Written& written) {
  if (!written.now) {
    return fault(412, "gone", "The job is no longer in the folder: another window has thrown it away.");
  }
  const bool sound = glance_at(written.now->bytes).fault.empty();
  Reply reply =
      json(412, R"({"code":"changed-elsewhere","text":"Another window has changed this job.",)" +
                    members_of(*written.now) + R"(,"job":)" + (sound ? written.now->bytes : "null") + "}");
  add_tag(reply, *written.now);
  return reply;
}

Reply outcome(const Written& written) {
  switch (written.kept) {
    case Kept::same:
    case Kept::replaced:
    case Kept::made: {
      Reply reply = json(written.kept == Kept::made ? 201 : 200, "{" + members_of(*written.now) + "}");
      add_tag(reply, *written.now);
      return reply;
    }
    case Kept::conflict:
    case Kept::missing:
      return conflict(written);
    case Kept::disk_full:
      return fault(507, "disk-full",
                   "The disk is full: the job was not saved, and what was saved before is whole.");
    case Kept::failed:
      break;
  }
  return fault(500, "cannot-write", written.why + ". What was saved before is whole.");
}

Reply put(const Jobs& jobs, const std::string& id, const Head& head, std::string_view body) {
  const Expected expected = expected_by(head);
  if (!expected.said) {
    return fault(428, "no-revision",
                 "A job is written with If-Match and the revision last seen, or with If-None-Match: * when "
                 "it is new.");
  }
  const Glance glance = glance_at(body);
  if (!glance.fault.empty()) return fault(400, "not-json", glance.fault);
  return outcome(jobs.write(id, body, expected.revision));
}

Reply discard(const Jobs& jobs, const std::string& id, const Head& head) {
  const Expected expected = expected_by(head);
  if (!expected.said || expected.revision.empty()) {
    return fault(428, "no-revision", "A job is thrown away with If-Match and the revision last seen.");
  }
  const Written written = jobs.discard(id, expected.revision);
  if (written.kept != Kept::replaced && written.kept != Kept::same) return outcome(written);
  return json(200, R"({"bin":)" + json_text(id + "." + expected.revision) + "}");
}

// "/api/jobs/ID" → "ID"; empty when the path is not below this one.
std::string below(std::string_view place, std::string_view path) {
  if (!path.starts_with(place) || path.size() <= place.size() + 1 || path[place.size()] != '/') return {};
  return std::string(path.substr(place.size() + 1));
}

Reply not_allowed(std::string_view allowed) {
  Reply reply = fault(405, "not-allowed", "That is not done here.");
  reply.fields.push_back({"Allow", std::string(allowed)});
  return reply;
}

}  // namespace

std::optional<Reply> refuse_before_body(const Head& head) {
  const std::string id = below(kJobs, head.path);
  const bool reads = head.method == "GET" || head.method == "HEAD";
  if (reads || head.method == "DELETE") {
    if (head.length > 0) return fault(400, "no-body", "No body is read here.");
    if (!reads && id.empty()) return not_allowed("GET, HEAD");
    return std::nullopt;
  }
  if (id.empty()) return not_allowed("GET, HEAD");
  if (head.method != "PUT") return not_allowed("GET, HEAD, PUT, DELETE");
  if (!is_job_id(id)) {
    return fault(400, "bad-id",
                 "A job's id is 1 to 64 of the characters a-z, 0-9 and -, and begins with none of the last.");
  }
  if (!head.has_length) return fault(411, "no-length", "The request must say the length of its body.");
  if (head.length > kMostJobBytes) return fault(413, "too-big", "A job has at most 8 MB.");
  const std::string* type = head.find("content-type");
  if (type == nullptr || (*type != "application/json" && !type->starts_with("application/json;"))) {
    return fault(415, "not-json", "A job is sent as application/json.");
  }
  return std::nullopt;
}

Reply answer_api(const Jobs& jobs, std::string_view version, const Head& head, std::string_view body) {
  if (const std::string id = below(kJobs, head.path); !id.empty()) {
    if (head.method == "PUT") return put(jobs, id, head, body);
    if (head.method == "DELETE") return is_job_id(id) ? discard(jobs, id, head) : not_found();
    return whole(jobs.read(id));
  }
  if (const std::string id = below(kBin, head.path); !id.empty()) return whole(jobs.read_from_bin(id));
  if (head.path == kJobs) {
    return list("jobs", jobs.ids(), [&jobs](const std::string& id) { return jobs.read(id); });
  }
  if (head.path == kBin) {
    return list("bin", jobs.ids_in_bin(), [&jobs](const std::string& id) { return jobs.read_from_bin(id); });
  }
  if (head.path == "/api/health") {
    return json(200, R"({"program":"lapwright","version":)" + json_text(version) + "}");
  }
  return fault(404, "not-found", "There is nothing by that name here.");
}

}  // namespace lapwright::serve
