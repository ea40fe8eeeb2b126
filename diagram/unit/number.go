package unit

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// cutSign cuts a sign off the front of text and returns it as 1 or -1.
func cutSign(text string) (sign float64, rest string) {
	switch {
	case strings.HasPrefix(text, "-"):
		return -1, strings.TrimLeft(text[1:], " ")
	case strings.HasPrefix(text, "+"):
		return 1, strings.TrimLeft(text[1:], " ")
	}
	return 1, text
}

// cutNumber cuts a number without a sign off the front of text: a decimal with
// groups and exponent, a fraction, or a whole number and a fraction.
func cutNumber(text string) (value float64, rest string, err error) {
	literal, rest := cutLiteral(text)
	if literal == "" {
		return 0, text, noNumber(text)
	}
	digits, ok := ungrouped(literal)
	if !ok {
		return 0, text, malformed(literal)
	}
	if !strings.ContainsAny(literal, ".,") {
		if value, after, found := cutFraction(digits, rest); found {
			return value, after, checkFraction(value)
		}
	}
	exponent, rest := cutExponent(rest)
	value, err = strconv.ParseFloat(digits+exponent, 64)
	switch {
	case errors.Is(err, strconv.ErrRange):
		return 0, text, errTooLarge
	case err != nil:
		return 0, text, malformed(literal + exponent)
	}
	return value, rest, nil
}

func noNumber(text string) error {
	if text == "" {
		return errors.New("there is no number; write one, like 12.5")
	}
	return fmt.Errorf("%s does not begin with a number; write one, like 12.5", quoted(text))
}

func malformed(literal string) error {
	return fmt.Errorf("%s is no number; write it like 1200, 1 200, 1,200 or 12.5", quoted(literal))
}

func checkFraction(value float64) error {
	if !finite(value) {
		return errors.New("this is no fraction; write one number, or a fraction like 1/2 or 2 1/2")
	}
	return nil
}

// cutLiteral cuts off digits with their separators. A space belongs to them
// only if it sets three digits apart from one to three before it.
func cutLiteral(text string) (literal, rest string) {
	at := 0
	for at < len(text) {
		switch {
		case isDigit(text[at]), text[at] == '.', text[at] == ',':
			at++
		case spacedGroup(text[:at], text[at:]):
			at += 4
		default:
			return text[:at], text[at:]
		}
	}
	return text, ""
}

// spacedGroup reports whether after begins with a space and a group of three
// digits that continues the number before it. In "2 100/128" it does not.
func spacedGroup(before, after string) bool {
	first, _, _ := strings.Cut(before, " ")
	if first == "" || len(first) > 3 || first[0] == '0' || strings.ContainsAny(before, ".,") {
		return false
	}
	if len(after) < 4 || after[0] != ' ' || len(leadingDigits(after[1:])) != 3 {
		return false
	}
	return len(after) == 4 || after[4] != '/'
}

// ungrouped returns a literal without its groups and with a decimal point, or
// false if its separators make no sense.
func ungrouped(literal string) (string, bool) {
	digits := strings.ReplaceAll(literal, " ", "")
	spaced := len(digits) < len(literal)
	commas, points := strings.Count(digits, ","), strings.Count(digits, ".")
	switch {
	case commas == 0 && points <= 1:
		return digits, true
	case commas == 1 && points == 0 && (spaced || !inThrees(digits, ",")):
		return joined(digits, "", ",")
	case spaced:
		return "", false
	case points == 0, points == 1 && strings.LastIndex(digits, ",") < strings.Index(digits, "."):
		return joined(digits, ",", ".")
	}
	return joined(digits, ".", ",")
}

// joined takes the group separator out of digits and makes point a full stop.
func joined(digits, group, point string) (string, bool) {
	whole, fraction, found := strings.Cut(digits, point)
	if found && (fraction == "" || strings.ContainsAny(fraction, ".,")) {
		return "", false
	}
	if group != "" {
		if !inThrees(whole, group) {
			return "", false
		}
		whole = strings.ReplaceAll(whole, group, "")
	}
	return whole + "." + fraction, true
}

// inThrees reports whether digits are set in groups of three, the first of one
// to three and not beginning with 0.
func inThrees(digits, group string) bool {
	first, others, _ := strings.Cut(digits, group)
	if first == "" || len(first) > 3 || first[0] == '0' {
		return false
	}
	for other := range strings.SplitSeq(others, group) {
		if len(other) != 3 {
			return false
		}
	}
	return true
}

// cutFraction cuts off the rest of a fraction that follows whole: "/2" of 1/2,
// " 1/2" of 2 1/2, "-1/2" of 2-1/2. Divided by 0 it is not finite, and likewise what is
// no part of one: 225/3 are amperes and poles, 120/240 two voltages.
func cutFraction(whole, rest string) (value float64, after string, found bool) {
	numerator := whole
	base := 0.0
	if strings.HasPrefix(rest, " ") || strings.HasPrefix(rest, "-") {
		numerator = leadingDigits(rest[1:])
		rest = rest[1+len(numerator):]
		base = parsed(whole)
	}
	if numerator == "" || !strings.HasPrefix(rest, "/") {
		return 0, "", false
	}
	denominator := leadingDigits(rest[1:])
	if denominator == "" {
		return 0, "", false
	}
	divisor := parsed(denominator)
	if divisor == 0 || parsed(numerator) >= divisor || divisor > 64 {
		return math.Inf(1), "", true
	}
	return base + parsed(numerator)/divisor, rest[1+len(denominator):], true
}

// cutExponent cuts off an exponent such as "e3" or "E-6".
func cutExponent(text string) (exponent, rest string) {
	if text == "" || text[0] != 'e' && text[0] != 'E' {
		return "", text
	}
	at := 1
	if at < len(text) && (text[at] == '+' || text[at] == '-') {
		at++
	}
	digits := leadingDigits(text[at:])
	if digits == "" {
		return "", text
	}
	at += len(digits)
	return text[:at], text[at:]
}

// parsed returns the value of a row of digits; too many of them are infinite.
func parsed(digits string) float64 {
	value, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return math.Inf(1)
	}
	return value
}

func leadingDigits(text string) string {
	at := 0
	for at < len(text) && isDigit(text[at]) {
		at++
	}
	return text[:at]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
