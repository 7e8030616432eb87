package rerun

// names numbers names as they come.
type names map[string]int

// bits is a set of names by their numbers.
type bits []uint64

const wordBits = 64

func (n names) number(name string) int {
	i, ok := n[name]
	if !ok {
		i = len(n)
		n[name] = i
	}
	return i
}

// add puts a name into a set.
func (n names) add(set *bits, name string) {
	i := n.number(name)
	for len(*set) <= i/wordBits {
		*set = append(*set, 0)
	}
	(*set)[i/wordBits] |= 1 << (i % wordBits)
}

// has says whether a name is in a set.
func (n names) has(set bits, name string) bool {
	i, ok := n[name]
	return ok && i/wordBits < len(set) && set[i/wordBits]&(1<<(i%wordBits)) != 0
}
