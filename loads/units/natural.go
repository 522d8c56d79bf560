package units

// NaturalLess orders names as people do: bar-2 before bar-10. Equal numbers
// with different leading zeros fall back to the text, so the order is total.
func NaturalLess(a, b string) bool {
	x, y := a, b
	for x != "" && y != "" {
		if digit(x[0]) && digit(y[0]) {
			nx, ny := digits(x), digits(y)
			vx, vy := trimZeros(nx), trimZeros(ny)
			if len(vx) != len(vy) {
				return len(vx) < len(vy)
			}
			if vx != vy {
				return vx < vy
			}
			x, y = x[len(nx):], y[len(ny):]
			continue
		}
		if x[0] != y[0] {
			return x[0] < y[0]
		}
		x, y = x[1:], y[1:]
	}
	if len(x) != len(y) {
		return len(x) < len(y)
	}
	return a < b
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

func digits(s string) string {
	i := 0
	for i < len(s) && digit(s[i]) {
		i++
	}
	return s[:i]
}

func trimZeros(s string) string {
	for len(s) > 1 && s[0] == '0' {
		s = s[1:]
	}
	return s
}
