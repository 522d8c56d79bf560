package inventory

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCodeIsNamedWhereverTOMLAllowsIt(t *testing.T) {
	for _, c := range []struct{ why, src, want string }{
		{"under the header", "[site]\nname = \"A\"\ncode = \"cec-2021\"\n[rooms.a]\ncode = \"no\"\n", "cec-2021"},
		{"after other tables", "[rooms.a]\ncode = \"no\"\n[site.outdoor]\ncode = \"no\"\n[site]\ncode = 'cec-2021'\n", "cec-2021"},
		{"dotted", "site.name = \"A\"\nsite.code = \"cec-2021\"\n", "cec-2021"},
		{"inline", "site = { name = \"A\", code = \"cec-2021\" }\n", "cec-2021"},
		{"behind a byte-order mark", "\ufeff[site]\ncode = \"cec-2021\"\n", "cec-2021"},
		{"quoted key", "[\"site\"]\n\"code\" = \"cec-2021\"\n", "cec-2021"},
		{"nowhere", "[site]\nname = \"A\"\n[plan]\ncode = \"no\"\n", ""},
		{"not a text", "[site]\ncode = 2021\n", ""},
		{"in a list", "[[site]]\ncode = \"no\"\n", ""},
		{"one level down", "[site.code]\ncode = \"no\"\n", ""},
		{"not TOML", "[site\ncode", ""},
		{"empty", "", ""},
	} {
		assert.Equal(t, c.want, CodeNamed([]byte(c.src)), c.why)
	}
}
