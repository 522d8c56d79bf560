package cli

import (
	"os"
	"strings"
)

// speaksUTF8 reports whether the locale says that text is UTF-8. The first of the
// variables that is set decides, as POSIX has it; where none is, plain characters are
// the safe choice.
func speaksUTF8(getenv func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := getenv(name); v != "" {
			v = strings.ToUpper(v)
			return strings.HasSuffix(v, "UTF-8") || strings.HasSuffix(v, "UTF8")
		}
	}
	return false
}

// blocks reports whether charts are drawn with block characters. What is not a terminal
// gets plain digits, unless --color always says that one reads along.
func (o *output) blocks(s *streams) bool {
	switch o.colour {
	case "never":
		return false
	case "always":
		return speaksUTF8(os.Getenv)
	}
	return s.blocks && o.toScreen()
}
