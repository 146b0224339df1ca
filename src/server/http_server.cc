#include <utility>  // before Asio: its awaitable.hpp leaves it out

#include "server/http.h"

#include <fmt/core.h>

#include <array>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/error.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/error.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/status.hpp>
#include <boost/beast/http/string_body.hpp>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <optional>
#include <set>
#include <thread>

namespace shimwright::server {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using tcp = asio::ip::tcp;
using Error = boost::system::error_code;
using std::chrono::milliseconds;

constexpr std::size_t kReadBytes = 8192;  // from a socket at once: what an idle connection costs

std::string text(beast::string_view view) {
  return {view.data(), view.size()};
}

/// The status line and the headers of an answer, without the empty line that ends them.
std::string head_of(const Response& response) {
  const auto status = static_cast<unsigned>(response.status);
  std::string head = fmt::format("HTTP/1.1 {} {}\r\nContent-Type: {}\r\n", status,
                                 text(http::obsolete_reason(http::int_to_status(status))), response.type);
  for (const auto& [name, value] : response.headers) head += name + ": " + value + "\r\n";
  return head;
}

/// What all connections share; lives as long as the last of them.
struct Shared {
  HttpSettings settings;
  HttpService service;  // set before the I/O thread starts
  int n_open = 0;       // seen by the I/O thread alone
  std::set<class Connection*>
      streams;  // the same; both outlive the sessions that `io` may still hold at the end
  asio::io_context io;
  asio::thread_pool workers;

  explicit Shared(HttpSettings given)
      : settings(std::move(given)), workers(static_cast<std::size_t>(settings.limits.n_workers)) {}
};

/// One connection, from its first byte to its last. Everything here runs on the I/O thread but the handler.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(tcp::socket socket, Shared& shared)
      : stream_(std::move(socket)), shared_(shared), deadline_(stream_.get_executor()) {
    ++shared_.n_open;
  }
  ~Connection() {
    --shared_.n_open;
    shared_.streams.erase(this);
  }

  void begin() { wait_for_request(); }

  const std::string& topic() const { return topic_; }

  /// Sends what was published; a client that does not read is let go.
  void send(std::shared_ptr<const std::string> event) {
    n_pending_ += event->size();
    if (n_pending_ > limits().lag_bytes) return close();
    pending_.push_back(std::move(event));
    if (pending_.size() == 1) write_pending();
  }
  /// Sends what a stream with a past of its own has new, and ends with it.
  void pull() {
    if (!pull_) return;
    Pulled pulled = pull_(cursor_);
    ends_ = pulled.ended;
    if (ends_) pull_ = nullptr;
    if (!pulled.text.empty()) return send(std::make_shared<const std::string>(std::move(pulled.text)));
    if (ends_ && pending_.empty()) close();
  }
  void close() {
    deadline_.cancel();
    stream_.close();
  }

 private:
  const HttpLimits& limits() const { return shared_.settings.limits; }

  /// Between requests a connection costs a socket and nothing else, and may idle for a while.
  void wait_for_request() {
    if (buffer_.size()) return read_request();
    stream_.expires_after(milliseconds(limits().idle_ms));
    stream_.async_read_some(buffer_.prepare(kReadBytes),
                            [self = shared_from_this()](Error error, std::size_t n) {
                              if (error) return self->close();
                              self->buffer_.commit(n);
                              self->read_request();
                            });
  }

  /// From its first byte a request has a few seconds, however slowly its bytes drip.
  void read_request() {
    parser_.emplace();
    parser_->eager(true);
    parser_->header_limit(static_cast<std::uint32_t>(limits().header_bytes));
    parser_->body_limit(limits().body_bytes);
    // a clock of its own: the stream's would close the socket before it can be told why
    stream_.expires_never();
    is_late_ = false;
    deadline_.expires_after(milliseconds(limits().request_ms));
    deadline_.async_wait([self = shared_from_this()](Error cancelled) {
      if (cancelled) return;
      self->is_late_ = true;
      self->stream_.cancel();
    });
    parse();
  }
  void parse() {
    Error fault;
    buffer_.consume(parser_->put(buffer_.cdata(), fault));
    if (parser_->is_done() || (fault && fault != http::error::need_more)) return on_request(fault);
    stream_.async_read_some(buffer_.prepare(kReadBytes),
                            [self = shared_from_this()](Error error, std::size_t n) {
                              if (error == asio::error::eof) error = http::error::partial_message;
                              if (error && self->is_late_) error = beast::error::timeout;
                              if (error) return self->on_request(error);
                              self->buffer_.commit(n);
                              self->parse();
                            });
  }

  void on_request(Error error) {
    deadline_.cancel();
    if (error == beast::error::timeout) return refuse(408, "too_slow", "The request took too long.");
    if (error == http::error::body_limit) return refuse(413, "too_large", "The body is too large.");
    if (error == http::error::header_limit) return refuse(431, "too_large", "The headers are too large.");
    if (error.category() == http::make_error_code(http::error::bad_method).category())
      return refuse(400, "bad_request", "This is not an HTTP request.");
    if (error) return close();

    const auto& message = parser_->get();
    Request request{text(message.method_string()),
                    text(message.target()),
                    text(message[http::field::host]),
                    text(message[http::field::origin]),
                    text(message[http::field::content_type]),
                    text(message["X-Shimwright-Token"]),
                    text(message[http::field::cookie]),
                    text(message[http::field::if_none_match]),
                    text(message["X-Shimwright-Result"]),
                    std::move(parser_->get().body())};
    keep_alive_ = message.keep_alive();
    head_only_ = message.method() == http::verb::head;
    // two Hosts, or two bodies' ends, are how one server is made to see another request than the next
    if (message.count(http::field::host) > 1 ||
        (message.count(http::field::content_length) && message.count(http::field::transfer_encoding)))
      return refuse(400, "bad_request", "This is not an HTTP request.");

    asio::post(shared_.workers, [self = shared_from_this(), request = std::move(request)] {
      auto response = std::make_shared<Response>(self->shared_.service.handle(request));
      asio::post(self->shared_.io, [self, response] { self->answer(std::move(*response)); });
    });
  }

  void answer(Response response) {
    if (!response.topic.empty() && !head_only_) return begin_stream(std::move(response));
    head_ = head_of(response);
    if (response.status != 304) head_ += fmt::format("Content-Length: {}\r\n", response.body.size());
    if (!keep_alive_) head_ += "Connection: close\r\n";
    head_ += "\r\n";
    body_ = head_only_ || response.status == 304 ? std::string() : std::move(response.body);
    stream_.expires_after(milliseconds(limits().write_ms));
    asio::async_write(stream_, std::array{asio::buffer(head_), asio::buffer(body_)},
                      [self = shared_from_this()](Error error, std::size_t) {
                        if (error) return self->close();
                        if (self->keep_alive_) return self->wait_for_request();
                        self->linger();
                      });
  }

  /// Answers what is no request, and lets go of who sent it.
  void refuse(int status, const char* code, const char* words) {
    keep_alive_ = head_only_ = false;
    Response response{.status = status, .headers = {{"X-Content-Type-Options", "nosniff"}}};
    response.body = fmt::format(
        R"({{"error":{{"code":"{}","message":"{}","remedy":"Send a smaller or a complete request."}}}})",
        code, words);
    answer(std::move(response));
  }

  /// Reads on for a moment without keeping anything: closing at once would tear the answer away from a client
  /// that still sends.
  void linger() {
    Error ignored;
    stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
    // a clock of its own here too: the stream's looks at reads that wait, and these may never have to
    deadline_.expires_after(milliseconds(limits().linger_ms));
    deadline_.async_wait([self = shared_from_this()](Error cancelled) {
      if (!cancelled) self->close();
    });
    drain();
  }
  void drain() {
    stream_.async_read_some(buffer_.prepare(kReadBytes),
                            [self = shared_from_this()](Error error, std::size_t) {
                              if (error) return self->close();
                              self->drain();
                            });
  }

  // ---- event streams

  void begin_stream(Response response) {
    topic_ = response.topic;
    response.type = "text/event-stream";
    auto head = std::make_shared<std::string>(head_of(response));
    *head += "Connection: close\r\n\r\n: here\n\n";
    shared_.streams.insert(this);
    send(std::move(head));
    watch_for_end();
    pull_ = std::move(response.pull);
    pull();
  }

  void write_pending() {
    asio::async_write(stream_.socket(), asio::buffer(*pending_.front()),
                      [self = shared_from_this()](Error error, std::size_t n) {
                        if (error) return self->close();
                        self->n_pending_ -= n;
                        self->pending_.pop_front();
                        if (!self->pending_.empty()) return self->write_pending();
                        if (self->ends_) self->close();
                      });
  }

  /// The client has nothing more to say; that its side closes is how we learn that it went.
  void watch_for_end() {
    stream_.socket().async_read_some(buffer_.prepare(kReadBytes),
                                     [self = shared_from_this()](Error error, std::size_t) {
                                       if (error) return self->close();
                                       self->watch_for_end();
                                     });
  }

  beast::tcp_stream stream_;
  Shared& shared_;
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  std::string head_, body_;      // of the answer that is being written
  asio::steady_timer deadline_;  // of the request that is being read, or of a client that was refused
  bool is_late_ = false;
  bool keep_alive_ = true;
  bool head_only_ = false;

  std::string topic_;
  std::deque<std::shared_ptr<const std::string>> pending_;
  std::size_t n_pending_{};
  std::function<Pulled(std::size_t&)> pull_;
  std::size_t cursor_ = 0;
  bool ends_ = false;
};

}  // namespace

std::string event_text(std::string_view event, std::string_view data) {
  std::string text;
  if (!event.empty()) text += fmt::format("event: {}\n", event);
  while (true) {
    const std::string_view line = data.substr(0, data.find('\n'));
    text += fmt::format("data: {}\n", line);
    if (line.size() == data.size()) break;
    data.remove_prefix(line.size() + 1);
  }
  return text + "\n";
}

struct HttpServer::Impl {
  Shared shared;
  tcp::acceptor acceptor{shared.io};
  asio::steady_timer beat{shared.io}, ticker{shared.io};
  asio::signal_set signals{shared.io};
  std::thread thread;
  std::mutex mutex;
  std::condition_variable ended;
  bool has_ended = false;

  explicit Impl(HttpSettings settings) : shared(std::move(settings)) {}

  void accept() {
    acceptor.async_accept([this](Error error, tcp::socket socket) {
      if (!acceptor.is_open()) return;
      if (!error && shared.n_open < shared.settings.limits.n_connections) {
        Error ignored;
        socket.set_option(tcp::no_delay(true), ignored);
        std::make_shared<Connection>(std::move(socket), shared)->begin();
      } else if (error) {
        // out of descriptors: wait for one instead of asking in a circle
        auto pause = std::make_shared<asio::steady_timer>(shared.io, milliseconds(100));
        pause->async_wait([this, pause](Error) { accept(); });
        return;
      }
      accept();
    });
  }

  void send_to_all(const std::string& topic, std::shared_ptr<const std::string> event) {
    // a connection that is closed here leaves the set later, when its last callback has run
    const std::vector<Connection*> streams(shared.streams.begin(), shared.streams.end());
    for (Connection* connection : streams)
      if (topic.empty() || connection->topic() == topic) connection->send(event);
  }

  void beat_later() {
    beat.expires_after(milliseconds(shared.settings.limits.beat_ms));
    beat.async_wait([this](Error error) {
      if (error) return;
      send_to_all("", std::make_shared<const std::string>(": still here\n\n"));
      beat_later();
    });
  }

  void tick_later() {
    ticker.expires_after(milliseconds(shared.settings.limits.tick_ms));
    ticker.async_wait([this](Error error) {
      if (error) return;
      asio::post(shared.workers, [this] {
        shared.service.tick();
        asio::post(shared.io, [this] { tick_later(); });
      });
    });
  }

  void end_at_signal() {
    signals.add(SIGINT);
    signals.add(SIGTERM);
    signals.async_wait([this](Error error, int) {
      if (!error) end();
    });
  }

  void end() {
    Error ignored;
    acceptor.close(ignored);
    shared.io.stop();
  }
};

HttpServer::HttpServer(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
HttpServer::HttpServer(HttpServer&&) noexcept = default;

HttpServer::~HttpServer() {
  if (!impl_) return;
  stop();
  if (impl_->thread.joinable()) impl_->thread.join();
  impl_->shared.workers.join();
}

Result<HttpServer, std::string> HttpServer::listen(HttpSettings settings) {
  auto impl = std::make_unique<Impl>(std::move(settings));
  const HttpSettings& given = impl->shared.settings;
  Error error;
  const auto address = asio::ip::make_address(given.address, error);
  if (error) return failure(fmt::format("{} is not an address", given.address));
  const tcp::endpoint endpoint(address, given.port);
  impl->acceptor.open(endpoint.protocol(), error);
  if (!error) impl->acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error) impl->acceptor.bind(endpoint, error);
  if (!error) impl->acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (error) return failure(fmt::format("port {} cannot be used: {}", given.port, error.message()));
  return HttpServer(std::move(impl));
}

void HttpServer::serve(HttpService service) {
  Impl* raw = impl_.get();
  raw->shared.service = std::move(service);
  raw->accept();
  raw->beat_later();
  if (raw->shared.service.tick) raw->tick_later();
  if (raw->shared.service.end_at_signal) raw->end_at_signal();
  raw->thread = std::thread([raw] {
    // a fault in one callback must not take the others along
    while (!raw->shared.io.stopped()) {
      try {
        raw->shared.io.run();
      } catch (const std::exception&) {
        continue;
      }
    }
    const std::lock_guard lock(raw->mutex);
    raw->has_ended = true;
    raw->ended.notify_all();
  });
}

std::uint16_t HttpServer::port() const {
  Error ignored;
  return impl_->acceptor.local_endpoint(ignored).port();
}

void HttpServer::publish(const std::string& topic, const std::string& event, const std::string& data) {
  auto text = std::make_shared<const std::string>(event_text(event, data));
  asio::post(impl_->shared.io, [impl = impl_.get(), topic, text] { impl->send_to_all(topic, text); });
}

void HttpServer::wake(const std::string& topic) {
  asio::post(impl_->shared.io, [impl = impl_.get(), topic] {
    const std::vector<Connection*> streams(impl->shared.streams.begin(), impl->shared.streams.end());
    for (Connection* connection : streams)
      if (connection->topic() == topic) connection->pull();
  });
}

void HttpServer::wait() {
  std::unique_lock lock(impl_->mutex);
  impl_->ended.wait(lock, [&] { return impl_->has_ended; });
}

void HttpServer::stop() {
  asio::post(impl_->shared.io, [impl = impl_.get()] { impl->end(); });
}

}  // namespace shimwright::server
