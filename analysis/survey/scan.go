package survey

import "strings"

// scan splits a table into rows of cells as spreadsheets write them: a cell in
// quotation marks may hold separators, line ends and doubled quotation marks.
// Other than RFC 4180 has it, a quotation mark within a cell that does not begin
// with one stands for itself (18" of lead), spaces may stand round a quoted cell,
// and a cell whose mark is not closed before the next separator ends with its
// line, so that it does not swallow the rows below it. Such rows are returned by
// number, from 0.
func scan(text string, separator rune) (rows [][]string, unclosed []int) {
	s := scanner{text: text, separator: byte(separator)}
	for s.at < len(s.text) {
		row, open := s.row()
		if open {
			unclosed = append(unclosed, len(rows))
		}
		rows = append(rows, row)
	}
	return rows, unclosed
}

type scanner struct {
	text      string
	separator byte // of one byte in UTF-8
	at        int
}

// row reads one row and goes on behind its line end.
func (s *scanner) row() (cells []string, open bool) {
	for {
		cell, bad := s.cell()
		cells, open = append(cells, cell), open || bad
		switch {
		case s.at >= len(s.text):
			return cells, open
		case s.text[s.at] == s.separator:
			s.at++
		default:
			s.endLine()
			return cells, open
		}
	}
}

func (s *scanner) endLine() {
	if strings.HasPrefix(s.text[s.at:], "\r\n") {
		s.at++
	}
	s.at++
}

// cell reads one cell and stops at what ends it.
func (s *scanner) cell() (cell string, open bool) {
	start := s.skipSpaces(s.at)
	if start < len(s.text) && s.text[start] == '"' {
		quoted, end, closed := s.quoted(start + 1)
		if end = s.skipSpaces(end); closed && s.ends(end) {
			s.at = end
			return quoted, false
		}
		open = true
	}
	return s.plain(), open
}

func (s *scanner) skipSpaces(at int) int {
	for at < len(s.text) && s.text[at] == ' ' {
		at++
	}
	return at
}

// ends reports whether a cell ends at a place.
func (s *scanner) ends(at int) bool {
	return at >= len(s.text) || s.text[at] == s.separator || s.text[at] == '\n' || s.text[at] == '\r'
}

// longestQuoted bounds a quoted cell, bytes: more than any text of a document.
const longestQuoted = 1 << 16

// quoted reads from behind a quotation mark to the one that closes it.
func (s *scanner) quoted(from int) (cell string, end int, closed bool) {
	var out strings.Builder
	for at := from; at-from < longestQuoted; {
		within := s.text[at:min(len(s.text), from+longestQuoted)]
		next := strings.IndexByte(within, '"')
		if next < 0 {
			break
		}
		out.WriteString(within[:next])
		at += next + 1
		if at >= len(s.text) || s.text[at] != '"' {
			return out.String(), at, true
		}
		out.WriteByte('"')
		at++
	}
	return "", from, false
}

// plain reads to the next separator or line end.
func (s *scanner) plain() string {
	start := s.at
	for !s.ends(s.at) {
		s.at++
	}
	return s.text[start:s.at]
}
