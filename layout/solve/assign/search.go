package assign

// number is what the search counts in: half the width is half the table to read,
// and reading it is most of the time.
type number interface{ int32 | int64 }

// none is the partner of a row or a column that has none.
const none = -1

// search pairs every row of a table with no more rows than columns. Throughout,
// what is left of a cost less the dual of its column is least in a row where
// the row is paired, and the dual of a column without a row has never changed.
type search[T number] struct {
	table         []T // costs, row by row
	rows, columns int
	v             []T     // duals of columns
	column        []int32 // of each row
	paired        []int32 // the row of each column

	// of one shortest path
	reached []T     // how far it is to each column
	from    []int32 // the row before it
	list    []int32 // columns in the order of how far they are, as far as known
}

func newSearch[T number](table []T, rows, columns int) *search[T] {
	s := &search[T]{
		table: table, rows: rows, columns: columns,
		v:       make([]T, columns),
		column:  make([]int32, rows),
		paired:  make([]int32, columns),
		reached: make([]T, columns),
		from:    make([]int32, columns),
		list:    make([]int32, 0, columns),
	}
	for i := range s.column {
		s.column[i] = none
	}
	for j := range s.paired {
		s.paired[j] = none
	}
	return s
}

func (s *search[T]) row(i int) []T {
	return s.table[i*s.columns:][:s.columns]
}

func (s *search[T]) solve() {
	if s.rows == s.columns {
		s.reduceColumns()
	}
	for _, i := range s.bid(s.bid(s.free())) {
		s.extend(int(i))
	}
}

// reduceColumns gives every column the row where it costs least, first come,
// first served. Only where no column stays without a row may its dual start
// at something other than 0.
func (s *search[T]) reduceColumns() {
	best := s.from
	copy(s.v, s.row(0))
	for i := 1; i < s.rows; i++ {
		v := s.v
		for j, c := range s.row(i) {
			if c < v[j] {
				v[j], best[j] = c, int32(i)
			}
		}
	}
	for j, i := range best {
		if s.column[i] == none {
			s.column[i], s.paired[j] = int32(j), i
		}
	}
}

// free lists the rows that have no column.
func (s *search[T]) free() (rows []int32) {
	for i, j := range s.column {
		if j == none {
			rows = append(rows, int32(i))
		}
	}
	return rows
}

// bid has each of some rows take the column that is best for it at a dual that
// makes it just as good as the second best. Who loses a column so bids next;
// who loses it for nothing waits, and is returned with the rest. After so many
// bids nobody goes on.
func (s *search[T]) bid(rows []int32) (waiting []int32) {
	left := 4 * s.rows
	for len(rows) > 0 && left > 0 {
		i := rows[0]
		rows = rows[1:]
		for ; left > 0; left-- {
			first, second, gain := s.best(int(i))
			j := first
			if gain == 0 && s.paired[first] != none {
				j = second
			}
			loser := s.paired[j]
			s.v[first] -= gain
			s.column[i], s.paired[j] = j, i
			if loser != none {
				s.column[loser] = none
			}
			i = loser
			if i == none || gain == 0 {
				break
			}
		}
		if i != none {
			waiting = append(waiting, i)
		}
	}
	return append(waiting, rows...)
}

// best is the column that is best for a row, the second best, and by how much
// the second is worse. Where there is only one column both are that.
func (s *search[T]) best(i int) (first, second int32, gain T) {
	row := s.row(i)
	v := s.v[:len(row)]
	least, next := row[0]-v[0], row[0]-v[0]
	if len(row) > 1 {
		second = 1
		if next = row[1] - v[1]; next < least {
			first, second, least, next = 1, 0, next, least
		}
	}
	for j := 2; j < len(row); j++ {
		if left := row[j] - v[j]; left < next {
			if left < least {
				second, next = first, least
				first, least = int32(j), left
			} else {
				second, next = int32(j), left
			}
		}
	}
	return first, second, next - least
}

// extend gives a row without a column one, by the shortest path of exchanges to a
// column without a row. On the way duals of the columns passed fall so that
// nothing left of a cost is below what its row pays.
func (s *search[T]) extend(start int) {
	for j, c := range s.row(start) {
		s.reached[j] = c - s.v[j]
		s.from[j] = int32(start)
	}
	s.list = s.list[:0]
	end := s.nearest(-1)
	for next := 0; end == none; {
		if next == len(s.list) {
			end = s.nearest(s.reached[s.list[next-1]])
			continue
		}
		end = s.scan(s.list[next])
		next++
	}
	far := s.reached[end]
	for _, j := range s.list {
		s.v[j] += s.reached[j] - far
	}
	for i := int32(none); i != int32(start); {
		i = s.from[end]
		s.paired[end] = i
		s.column[i], end = end, s.column[i]
	}
}

// nearest adds to the list the columns that are nearest of those farther than
// far, which are those not in it yet. It returns one without a row, if there
// is one.
func (s *search[T]) nearest(far T) (end int32) {
	known := len(s.list)
	var least T
	for j, d := range s.reached {
		if d <= far || len(s.list) > known && d > least {
			continue
		}
		if len(s.list) == known || d < least {
			s.list, least = s.list[:known], d
		}
		s.list = append(s.list, int32(j))
	}
	for _, j := range s.list[known:] {
		if s.paired[j] == none {
			return j
		}
	}
	return none
}

// scan looks for shorter ways by the row that has column j. Columns in the list
// cannot be reached by less than they are. A column as far as j joins the
// list, and if it has no row ends the search.
func (s *search[T]) scan(j int32) (end int32) {
	i := s.paired[j]
	row := s.row(int(i))
	far := s.reached[j]
	less := row[j] - s.v[j] - far
	v, reached := s.v[:len(row)], s.reached[:len(row)]
	for k, c := range row {
		d := c - v[k] - less
		if d >= reached[k] {
			continue
		}
		reached[k], s.from[k] = d, i
		if d == far {
			if s.paired[k] == none {
				return int32(k)
			}
			s.list = append(s.list, int32(k))
		}
	}
	return none
}
