package json

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWhatIsNoNumberIsRefusedWhole(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := Check(map[string]any{"a": 1, "x": x})
		require.Error(t, err)
	}
}

func TestNoCharacterCanMoveACursor(t *testing.T) {
	in := "a\x1b[31m\u009b31m\u202e\u2028\U000e0041<b>&é漢"
	var b bytes.Buffer
	c, err := Check([]string{in})
	require.NoError(t, err)
	require.NoError(t, c.Render(&b))
	for _, c := range b.String() {
		require.True(t, c == '\n' || c >= ' ' && c != 0x7f && (c < 0x80 || c > 0x9f) && c != 0x202e && c < 0xe0000, "%q", c)
	}
	require.Contains(t, b.String(), "<b>&é漢", "what prints stays readable")
	var out []string
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	require.Equal(t, in, out[0], "the escapes mean the same")
}

// What is printed part by part is, to the byte, what the library prints of the whole.
func TestPartsMakeTheWhole(t *testing.T) {
	type inner struct {
		A float64 `json:"a"`
		B []int   `json:"b,omitempty"`
	}
	type outer struct {
		Name    string             `json:"name"`
		List    []inner            `json:"list"`
		None    []inner            `json:"none"`
		Nil     []inner            `json:"nil"`
		Gone    []inner            `json:"gone,omitempty"`
		Zero    []inner            `json:"zero,omitzero"`
		There   []inner            `json:"there,omitzero"`
		Words   []string           `json:"words"`
		Map     map[string]float64 `json:"map"`
		Pointer *inner             `json:"pointer"`
		Absent  *inner             `json:"absent,omitempty"`
		Struct  inner              `json:"struct,omitempty"`
		Bool    bool               `json:"bool,omitempty"`
		Skipped string             `json:"-"`
		Untold  int
		hidden  string
	}
	one := inner{A: 1.5, B: []int{1, 2}}
	for _, d := range []any{
		outer{}, outer{Name: "<&>", List: []inner{one, {}}, None: []inner{}, There: []inner{}, Words: []string{"a"}, Map: map[string]float64{"b": 1, "a": 2}, Pointer: &one, Struct: one, Bool: true, Skipped: "x", hidden: "y"},
		struct{ inner }{one}, one, []inner{one}, 3, nil, map[string]int{"a": 1},
	} {
		var want, got bytes.Buffer
		e := json.NewEncoder(&want)
		e.SetEscapeHTML(false)
		e.SetIndent("", "  ")
		require.NoError(t, e.Encode(d))
		c, err := Check(d)
		require.NoError(t, err)
		require.NoError(t, c.Render(&got))
		require.Equal(t, want.String(), got.String())
	}
}

type listed struct {
	Items []string `json:"items"`
}

func (l listed) Written() any { return listed{append([]string{"first"}, l.Items...)} }

func TestADocumentSaysHowItIsWritten(t *testing.T) {
	c, err := Check(listed{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, c.Render(&b))
	require.JSONEq(t, `{"items": ["first"]}`, b.String())
}
