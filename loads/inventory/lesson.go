package inventory

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// lesson turns the library's message about a place into what a grower would
// want to hear: what is wrong in this line, and the line as it should be.
func lesson(src []byte, at span, message string) (span, string, string) {
	at.start = max(0, min(at.start, len(src)))
	at.end = max(at.start, min(at.end, len(src)))
	l := lineAt(src, at)
	for _, try := range []func(line, string) (span, string, string){
		control, already, notComment, header, noEquals, unclosed, listOrTable, bareValue, strayValue,
	} {
		if s, says, remedy := try(l, message); says != "" {
			return s, says, remedy
		}
	}
	says := strings.TrimSuffix(strings.ToLower(message[:min(1, len(message))])+message[min(1, len(message)):], ".")
	return at, printable(says), "the line cannot be read; compare it with the starter file"
}

// line is the line of a mistake, in pieces.
type line struct {
	at         span // of the mistake
	start      int  // of the line in the file
	text       string
	key, value string // around the first "="
	valueAt    int
	equals     bool
	ends       bool // the mistake is the end of the file
}

func lineAt(src []byte, at span) line {
	i := min(at.start, max(0, len(src)-1))
	if i > 0 && i < len(src) && src[i] == '\n' && at.start > 0 {
		i-- // a mistake at the end of a line belongs to it
	}
	start := bytes.LastIndexByte(src[:i], '\n') + 1
	if len(src) > 0 && src[i] == '\n' {
		start = i
	}
	end := len(src)
	if n := bytes.IndexByte(src[start:], '\n'); n >= 0 {
		end = start + n
	}
	const most = 2000 // of a line that is looked at
	l := line{at: at, start: start, text: strings.TrimRight(string(src[start:min(end, start+most)]), "\r")}
	key, value, ok := strings.Cut(l.text, "=")
	l.key, l.value, l.equals = strings.TrimSpace(key), strings.TrimSpace(value), ok
	l.ends = at.start >= len(src)
	l.valueAt = start + len(key) + 1 + len(value) - len(strings.TrimLeft(value, " \t"))
	return l
}

// valueSpan is the value up to a comment.
func (l line) valueSpan(text string) span { return span{l.valueAt, l.valueAt + len(text)} }

// keySpan is where the key or the header stands.
func (l line) keySpan() span {
	from := l.start + len(l.text) - len(strings.TrimLeft(l.text, " \t"))
	return span{from, from + len(strings.TrimSpace(l.text))}
}

func control(l line, message string) (span, string, string) {
	if !strings.Contains(message, "control character") {
		return span{}, "", ""
	}
	if strings.Contains(message, "0x0d") {
		return l.at, "a carriage return inside a line", "save the file with Unix or Windows line ends"
	}
	return l.at, "a control character", "take it out, or write it as \\u0001 inside a text in quotes"
}

func already(l line, message string) (span, string, string) {
	if isTwice(message) {
		return l.keySpan(), "a name that is in use already", "write each table once, in single brackets: [panels.LP1]"
	}
	return span{}, "", ""
}

func notComment(l line, _ string) (span, string, string) {
	s := strings.TrimSpace(l.text)
	for _, mark := range []string{"//", ";", "/*", "--"} {
		if strings.HasPrefix(s, mark) {
			k := l.keySpan()
			return span{k.start, k.start + len(mark)}, fmt.Sprintf("%q does not begin a comment", mark), "comments begin with #"
		}
	}
	if strings.HasPrefix(s, "{") && !l.equals {
		k := l.keySpan()
		return span{k.start, k.start + 1}, `"{" cannot begin a line`, "an inventory is TOML: a table is [site], a key is name = \"…\""
	}
	return span{}, "", ""
}

func header(l line, message string) (span, string, string) {
	s := strings.TrimSpace(l.text)
	ofHeader := strings.Contains(message, "table name") || strings.Contains(message, "table separator") ||
		strings.Contains(message, "table array") || strings.Contains(message, "top-level")
	if !strings.HasPrefix(s, "[") || !ofHeader {
		return span{}, "", ""
	}
	name, after, closed := strings.Cut(strings.TrimLeft(s, "["), "]")
	name = strings.TrimSpace(name)
	switch {
	case !closed:
		name, _, _ = strings.Cut(name, "#")
		return l.keySpan(), `a table's name without "]"`, fmt.Sprintf("write [%s]", printable(cut(strings.TrimSpace(name))))
	case name == "" || strings.Contains(name, "..") || strings.HasPrefix(name, ".") || strings.HasSuffix(name, "."):
		return l.keySpan(), "a table without a name", "write a table as [site] or [panels.LP1]"
	case strings.ContainsAny(name, " \t") && !strings.ContainsAny(name, `"'`):
		dashed := strings.Join(strings.Fields(name), "-")
		return l.keySpan(), "a space in a table's name", fmt.Sprintf("write [%s]", printable(cut(dashed)))
	case strings.TrimSpace(after) != "":
		return l.at, "something stands after a table's name", "write the keys on lines of their own"
	case !strings.ContainsAny(name, `"'`):
		return l.keySpan(), fmt.Sprintf("the name %s needs quotes", quote(name)), "letters, digits, - and _ need none: [fixtures.bar-640]\nother names are quoted: [fixtures.\"bar 640/2\"]"
	}
	return span{}, "", ""
}

func noEquals(l line, message string) (span, string, string) {
	s := strings.TrimSpace(l.text)
	if strings.HasPrefix(s, "[") || !strings.Contains(message, "'='") && !strings.Contains(message, "'.' or") && !strings.Contains(message, "start of key") || strings.Contains(message, "array") {
		return span{}, "", ""
	}
	key, value, colon := strings.Cut(s, ":")
	switch {
	case l.equals && l.key == "":
		return l.keySpan(), `no key before "="`, `write a key and its value: count = 12`
	case l.equals && strings.ContainsAny(l.key, " \t") && !strings.ContainsAny(l.key, `"'{[`):
		return span{l.keySpan().start, l.keySpan().start + len(l.key)}, "a space in a key", fmt.Sprintf("write %s", printable(cut(strings.Join(strings.Fields(l.key), "_"))))
	case l.equals && strings.ContainsFunc(l.key, notBare) && !strings.ContainsAny(l.key, `"'{[`):
		return l.keySpan(), fmt.Sprintf("the key %s has letters that TOML does not take without quotes", quote(l.key)), "keys here are plain letters, digits, - and _"
	case !l.equals && colon && key != "":
		return l.at, `":" where "=" belongs`, fmt.Sprintf("write %s = %s", printable(cut(strings.TrimSpace(key))), printable(cut(strings.TrimSpace(value))))
	case !l.equals:
		return l.keySpan(), `no "=" in this line`, "write a key and its value: count = 12"
	}
	return span{}, "", ""
}

func notBare(c rune) bool {
	return c > 0x7f || !(c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '-' || c == '_' || c == '.' || c == ' ')
}

func unclosed(l line, message string) (span, string, string) {
	switch {
	case strings.Contains(message, "newlines") || strings.Contains(message, "EOF; expected '\"'") || strings.Contains(message, `EOF; expected "'"`):
		from := max(0, strings.LastIndexAny(l.text, `"'`))
		return span{l.start + from, l.start + len(l.text)}, "the quote that opens here is not closed on this line", `end the text with the same quote: "640 W"`
	case strings.Contains(message, "digits after") || strings.Contains(message, "escape"):
		return l.at, "a backslash inside a text in double quotes", `write \\ for a backslash, or the text in single quotes`
	case strings.Contains(message, `"""`) || strings.Contains(message, "'''"):
		return l.at, "a text in three quotes is not closed", "end it with the same three quotes"
	}
	return span{}, "", ""
}

// bareValue explains a value that is no TOML: words and quantities without
// quotes above all.
func bareValue(l line, message string) (span, string, string) {
	if !l.equals || l.value == "" {
		if l.equals && l.at.start >= l.start {
			return l.keySpan(), "no value after \"=\"", fmt.Sprintf("write a value: %s = …", printable(cut(l.key)))
		}
		return span{}, "", ""
	}
	v, _, _ := strings.Cut(l.value, "#")
	v = strings.TrimSpace(v)
	write := func(s string) string { return fmt.Sprintf("write %s = %s", printable(cut(l.key)), printable(cut(s))) }
	switch first, lower := v[:min(1, len(v))], strings.ToLower(v); {
	case v == "" || strings.ContainsAny(first, "[{"):
		return span{}, "", ""
	case strings.HasPrefix(v, "“") || strings.HasPrefix(v, "”") || strings.HasPrefix(v, "‘") || strings.HasPrefix(v, "„"):
		return l.valueSpan(v), "typographic quotes", write(strconv.Quote(strings.Trim(v, "“”„‘’\"'")))
	case first == `"` || first == "'":
		return l.at, "something stands after the closing quote", "one key stands on one line; a quote inside a text is written \\\""
	case lower == "true" || lower == "yes" || lower == "on":
		return l.valueSpan(v), fmt.Sprintf("%s is not a TOML value", quote(v)), write("true")
	case lower == "false" || lower == "no" || lower == "off":
		return l.valueSpan(v), fmt.Sprintf("%s is not a TOML value", quote(v)), write("false")
	case strings.Contains(v, "= ") || strings.Contains(v, " ["):
		return l.at, "two things on one line", "write each key and each table on a line of its own"
	}
	return l.bareNumber(v, message, write)
}

func (l line) bareNumber(v, message string, write func(string) string) (span, string, string) {
	plain := strings.ReplaceAll(v, ",", "")
	body, percent := strings.CutSuffix(plain, "%")
	x, number := decimal(strings.TrimSpace(body))
	switch {
	case strings.Contains(message, "out of range"):
		return l.valueSpan(v), fmt.Sprintf("the number %s is too large", quote(v)), "look for a slip of the pen"
	case number && percent:
		return l.valueSpan(v), fmt.Sprintf("%s is a percentage", quote(v)), write(strconv.FormatFloat(x/100, 'f', -1, 64)) + ", as a fraction"
	case number && strings.Contains(v, ","):
		return l.valueSpan(v), fmt.Sprintf("a comma in the number %s", quote(v)), write(body)
	case number:
		return l.valueSpan(v), fmt.Sprintf("%s is not a number as TOML writes it", quote(v)), write(strconv.FormatFloat(x, 'f', -1, 64))
	}
	return l.valueSpan(v), fmt.Sprintf("%s is not in quotes", quote(v)), write(strconv.Quote(v))
}

// listOrTable explains a list or an inline table that is not well closed.
func listOrTable(l line, message string) (span, string, string) {
	switch {
	case strings.Contains(message, "array terminator"):
		return l.at, "a list that is not closed, or a comma that is missing", "write a list as [1, 3]"
	case strings.Contains(message, "inline table"):
		return l.at, "a table that is not closed, or a comma that is missing", `write it as { lights_on = "82 F", lights_off = "72 F" }`
	case strings.Contains(message, "unexpected comma"):
		return l.at, "a comma too many", "write a list as [1, 3]"
	case l.ends, strings.Contains(message, "unexpected EOF"), strings.Contains(message, "incomplete"):
		return l.at, "the file ends before this is complete", "close a list with ], a table with }"
	}
	return span{}, "", ""
}

// strayValue is the last resort for a value inside a list.
func strayValue(l line, message string) (span, string, string) {
	if strings.Contains(message, "expected value") {
		return l.at, "something here is not a TOML value", `texts and quantities are written in quotes: ["15 A", "20 A"]`
	}
	return span{}, "", ""
}
