// SPDX-License-Identifier: MIT
#include "records/csv.hpp"

#include <algorithm>

#include "core/text.hpp"

namespace soilclock::records {

namespace {

class CsvParser {
 public:
  CsvParser(std::string_view text, const std::string& file) : text_{text}, file_{file} {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
  }

  Result<std::vector<CsvRow>> parse() {
    std::vector<CsvRow> rows;
    CsvRow row;
    while (at_ < text_.size()) {
      CsvCell cell{{}, line_};
      const auto read = text_[at_] == '"' ? quoted(cell, row) : bare(cell, row);
      if (!read) return fail(read.error());
      row.push_back(std::move(cell));
      if (!ended() && text_[at_] == ',') {
        ++at_;
        if (!ended()) continue;
        row.push_back({{}, line_});  // the text ends right behind a comma
      }
      skip_line_end();
      const bool empty_line = row.size() == 1 && row[0].text.empty() && !was_quoted_;
      if (!empty_line) rows.push_back(std::move(row));
      row = {};
    }
    return rows;
  }

 private:
  bool ended() const { return at_ == text_.size(); }
  bool at_line_end() const { return text_[at_] == '\n' || text_[at_] == '\r'; }

  Checked bare(CsvCell& cell, const CsvRow& row) {
    was_quoted_ = false;
    const std::size_t from = at_;
    while (!ended() && text_[at_] != ',' && !at_line_end()) {
      if (text_[at_] == '"') return refuse("a quote stands within a cell that is not in quotes", cell, row);
      ++at_;
    }
    cell.text = text_.substr(from, at_ - from);
    return {};
  }

  Checked quoted(CsvCell& cell, const CsvRow& row) {
    was_quoted_ = true;
    ++at_;
    while (true) {
      if (ended()) return refuse("the quote of this cell is never closed", cell, row);
      if (text_[at_] == '"') {
        ++at_;
        if (ended() || text_[at_] != '"') break;
      }
      // CRLF counts once, at its LF.
      const bool lone_return = text_[at_] == '\r' && (at_ + 1 == text_.size() || text_[at_ + 1] != '\n');
      if (text_[at_] == '\n' || lone_return) ++line_;
      cell.text += text_[at_++];
    }
    if (!ended() && text_[at_] != ',' && !at_line_end()) {
      return refuse("text follows the closing quote of this cell", cell, row);
    }
    return {};
  }

  void skip_line_end() {
    if (ended()) return;
    if (text_[at_] == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n') ++at_;
    ++at_;
    ++line_;
  }

  Failure<Problem> refuse(std::string what, const CsvCell& cell, const CsvRow& row) const {
    return fail({Family::data,
                 std::move(what),
                 {file_, cell.line, static_cast<int>(row.size()) + 1, {}},
                 printable(cell.text, 40),
                 {},
                 "put the cell in quotes and double each quote within it"});
  }

  std::string_view text_;
  const std::string& file_;
  std::size_t at_ = 0;
  int line_ = 1;
  bool was_quoted_ = false;
};

}  // namespace

bool has_heading(std::string_view text, const std::function<bool(std::string_view word)>& known) {
  constexpr std::string_view line_ends = "\r\n";
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  text.remove_prefix(std::min(text.find_first_not_of(line_ends), text.size()));
  std::string_view line = text.substr(0, text.find_first_of(line_ends));
  while (!line.empty()) {
    const std::size_t end = std::min(line.find_first_of(",;\t"), line.size());
    std::string_view word = trimmed(line.substr(0, end));
    if (word.size() >= 2 && word.front() == '"' && word.back() == '"') word = word.substr(1, word.size() - 2);
    if (known(word)) return true;
    line.remove_prefix(std::min(end + 1, line.size()));
  }
  return false;
}

Result<std::vector<CsvRow>> parse_csv(std::string_view text, const std::string& file) {
  return CsvParser{text, file}.parse();
}

}  // namespace soilclock::records
