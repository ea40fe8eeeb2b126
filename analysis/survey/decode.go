package survey

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// decoded returns the text of a table that a spreadsheet wrote, and what it was
// taken to be where it is not UTF-8.
func decoded(file []byte) (text, note string) {
	for mark, order := range map[string]binary.ByteOrder{"\xff\xfe": binary.LittleEndian, "\xfe\xff": binary.BigEndian} {
		if rest, found := bytes.CutPrefix(file, []byte(mark)); found {
			return fromUTF16(rest, order), ""
		}
	}
	file = bytes.TrimPrefix(file, []byte("\ufeff"))
	if utf8.Valid(file) {
		return string(file), ""
	}
	return fromWindows(file), "The table is not UTF-8. It was read as Windows-1252, as spreadsheets write; look at letters with accents."
}

func fromUTF16(file []byte, order binary.ByteOrder) string {
	units := make([]uint16, len(file)/2)
	for i := range units {
		units[i] = order.Uint16(file[2*i:])
	}
	return string(utf16.Decode(units))
}

// upper are the characters of Windows-1252 from 0x80 to 0x9f; the others above
// are those of Latin-1 (WHATWG Encoding Standard, index windows-1252, from
// memory).
var upper = [...]rune{
	'€', 0x81, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0x8d, 'Ž', 0x8f,
	0x90, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0x9d, 'ž', 'Ÿ',
}

func fromWindows(file []byte) string {
	var out strings.Builder
	for _, b := range file {
		if b >= 0x80 && b < 0xa0 {
			out.WriteRune(upper[b-0x80])
		} else {
			out.WriteRune(rune(b))
		}
	}
	return out.String()
}
