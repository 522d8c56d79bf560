package cli
import ("testing";"bytes";"strings";"os")
func TestZZ(t *testing.T){ var e bytes.Buffer; st:=Run(strings.Fields(os.Getenv("ZZ")), strings.NewReader(""),&e,&e); t.Log(st, e.Len()) }
