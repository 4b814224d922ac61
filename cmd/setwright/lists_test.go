package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// agreeing reads the lists of a plan with Python's csv module and openpyxl, and
// counts again from the dressed unit in JSON what the lists must say.
const agreeing = `
import collections, csv, decimal, json, os, sys
import openpyxl
from openpyxl.utils.escape import unescape  # which reading leaves to its callers
D = decimal.Decimal
folder, book = sys.argv[1:3]
unit = json.load(open(folder + '/unit.json', encoding='utf-8'), parse_float=D, parse_int=D)
inches = unit['measure'] == 'in'

def read(name):
    with open(f'{folder}/{name}.csv', encoding='utf-8', newline='') as f:
        rows = list(csv.reader(f, strict=True))
    return rows[0], [dict(zip(rows[0], row, strict=True)) for row in rows[1:]]

def same(what, got, want):
    if got != want:
        sys.exit(f'{what}: {got!r}, not {want!r}')

formula = tuple('=+-@\t\r\n')

def text(s):
    return s[1:] if s[:1] == "'" and s.lstrip("'")[:1] in formula else s

def mm(s):
    return (D(s) * D('25.4')).quantize(D('1e-6')) if inches else D(s)

# The key: every position, in order.
head, key = read('key')
height = 'height (in)' if inches else 'height (mm)'
places = [(f, r, p) for f in unit['faces'] for r in f['rows'] for p in r['positions']]
same('positions', len(key), len(places))
for line, (f, r, p) in zip(key, places):
    same('position', [line['address'], line['face'], line['part'], text(line['sku']), text(line['name']), text(line['row label'])],
         [p['address'], f['face'], r['part'], p['sku'], p['name'], r.get('label', '')])
    same('figures of ' + p['address'], [D(line['fronts']), D(line['units']), mm(line[height])], [p['facings'], p['units'], p['height']])
    same('numbers of ' + p['address'], f"{f['letter']}-{line['row']}-{line['place']}", p['address'])

# The restock list: every product once.
_, restock = read('restock')
units, at = collections.Counter(), collections.defaultdict(list)
for _, _, p in places:
    units[p['sku']] += p['units']
    at[p['sku']].append(p['address'])
same('products', sorted(text(line['sku']) for line in restock), sorted(units))
for line in restock:
    sku = text(line['sku'])
    same(sku, [D(line['units']), line['addresses']], [units[sku], ', '.join(at[sku])])
    if line['case']:
        case, cases, over = D(line['case']), D(line['cases']), D(line['over'])
        same('cases of ' + sku, [cases * case - over, 0 <= over < case], [units[sku], True])

# The pick list: every piece.
_, pick = read('pick')
cut = 'cut length (in)' if inches else 'cut length (mm)'
pieces, rows = collections.Counter(), collections.defaultdict(list)
for f in unit['faces']:
    for r in f['rows']:
        for piece in r['pieces'] + r.get('brackets', []) + r.get('extras', []):
            kind = piece['part'], piece.get('cut', D(0))
            pieces[kind] += 1
            if r['address'] not in rows[kind]:
                rows[kind].append(r['address'])
for s in unit['structure']:
    if 'bay' in s:
        pieces[s['part'], D(0)] += 1
pieces[unit['frame'], D(0)] = 1
got = {}
for line in pick:
    kind = line['part'], mm(line[cut] or '0')
    if kind not in pieces:  # it is cut to its own size, of which the unit says nothing
        kind = line['part'], D(0)
    got[kind] = D(line['quantity'])
    same('rows of ' + line['part'], line['rows'], ', '.join(rows[kind]))
    if line['packs']:  # what is cut from stock is in none
        packs, size = int(line['packs']), int(line['pack size'])
        same('packs of ' + line['part'], 0 <= packs * size - got[kind] < size, True)
got.pop((unit['stand'], D(0)), None)  # a set, whatever its feet
same('pieces', got, dict(pieces))
same('balloons', [line['balloon'] for line in pick], [str(i + 1) for i in range(len(pick))])

# By face and by load: the same pieces and weights again.
weight = 'weight (lb)' if inches else 'weight (kg)'
for name in 'faces', 'loads':
    _, lines = read(name)
    for column in 'quantity', weight:
        sums, rounded = collections.Counter(), collections.Counter()
        for line in lines:
            sums[line['balloon']] += D(line[column])
            rounded[line['balloon']] += 1
        for line in pick:
            b = line['balloon']
            room = D('0.0005') * (rounded[b] + 1) if column == 'weight (lb)' else 0
            if abs(sums.pop(b) - D(line[column])) > room:
                sys.exit(f'{name}: {column} of item {b} is not that of the pick list')
        same(f'{name}: more than the pick list', dict(sums), {})
_, lines = read('faces')
for line in lines:
    letter = {'structure': '', 'front': 'F', 'right': 'R', 'back': 'B', 'left': 'L'}[line['face']]
    same('rows of a face', {row[:1] for row in line['rows'].split(', ')}, {letter})
    same('person', line['person'] == 'both', line['face'] == 'structure')

# The buy list, if there is one: packs cover what is short, orders are what their lines come to.
lists = ['pick', 'faces', 'loads', 'cut', 'key', 'restock']
if os.path.exists(folder + '/buy.csv'):
    lists += ['buy', 'orders']
    (head, lines), (_, orders) = read('buy'), read('orders')
    money = lambda line, name: D(next((v for k, v in line.items() if k == name or k.startswith(name + ' (')), '') or '0')
    goods = collections.Counter()
    for line in lines:
        packs = [p.partition(' at ') for p in line['packs'].split(', ') if p]
        counts = [[D(n) for n in p[0].split(' x ')] for p in packs]
        needed, hand, short, bought = (D(line[h]) for h in ('needed', 'on hand', 'short', 'pieces'))
        same('pieces of ' + line['part'], bought, sum(n * each for n, each in counts))
        same('short of ' + line['part'], [short, D(line['spare'])], [max(D(0), needed - hand), hand + bought - needed])
        same('covered ' + line['part'], bought >= short, True)
        same('cost of ' + line['part'], money(line, 'cost'), sum(n * D(p[2] or '0') for (n, _), p in zip(counts, packs)))
        if short:
            goods[line['supplier']] += money(line, 'cost')
        if not line['size'] and (line['part'], D(0)) in pieces:
            same('needed ' + line['part'], needed, pieces[line['part'], D(0)])
    same('orders', {line['supplier']: money(line, 'goods') for line in orders}, dict(goods))
    for line in orders:
        same('landed', money(line, 'landed'), money(line, 'goods') + money(line, 'freight') + money(line, 'duty'))

# The workbook: cell by cell what CSV has, and the sums under it.
shown, plain = openpyxl.load_workbook(book), openpyxl.load_workbook(book, data_only=True)
same('title', plain.properties.title, unit['title'])
if 'date' in unit:
    same('date', str(plain.properties.created)[:10], unit['date'])
english = plain.properties.language == 'en'
for n, name in enumerate(lists):
    heads, lines = read(name)
    sheet, values = shown.worksheets[n], plain.worksheets[n]
    if english:
        same('heads', [c.value.lower() for c in sheet[1]], heads)
    same('frozen', sheet.freeze_panes, 'A2')
    same('filter', sheet.auto_filter.ref.replace('$', ''), f'A1:{sheet.cell(len(lines) + 1, len(heads)).coordinate}')
    same('repeated', sheet.print_title_rows, '$1:$1')
    same('rows', sheet.max_row, len(lines) + 2 if lines else 1)
    for i, line in enumerate(lines):
        for j, h in enumerate(heads):
            cell, want = sheet.cell(i + 2, j + 1), line[h]
            if cell.value is None:
                same(f'{name} {cell.coordinate}', '', want)
            elif cell.data_type == 'n':
                same(f'{name} {cell.coordinate}', D(repr(cell.value)), D(want))
            elif h in ('group', 'face', 'form', 'person', 'what'):
                same(f'{name} {cell.coordinate}', cell.data_type, 's')
                if english:
                    same(f'{name} {cell.coordinate}', cell.value.lower(), want)
            else:
                same(f'{name} {cell.coordinate}', [cell.data_type, unescape(cell.value)], ['s', text(want)])
                same(f'{name} {cell.coordinate} is marked', cell.quotePrefix, text(want)[:1] in formula)
    for j, h in enumerate(heads if lines else []):
        cell = sheet.cell(len(lines) + 2, j + 1)
        if cell.data_type == 'f':
            column = [D(line[h] or '0') for line in lines]
            same('sum', cell.value, f'=SUBTOTAL(109,{sheet.cell(2, j + 1).coordinate}:{sheet.cell(len(lines) + 1, j + 1).coordinate})')
            # Each pound is rounded to a thousandth.
            if abs(D(repr(values.cell(cell.row, j + 1).value)) - sum(column)) > D('0.0005') * (len(column) + 1):
                sys.exit(f'{name} {cell.coordinate}: not the sum of {h}')
print('agreed')
`

// TestListsAgree has outside programs read the lists back.
func TestListsAgree(t *testing.T) {
	python := oracle.NeedPython(t, "openpyxl")
	for _, plan := range append(samplePlans(t), hostilePlan(t)) {
		if os.Getenv("SETWRIGHT_ORACLES") != "1" && strings.Contains(plan, "samples") && plan != spring && !strings.Contains(plan, "sweets") {
			continue // starting programs is slow
		}
		dir := t.TempDir()
		book := filepath.Join(dir, "lists.xlsx")
		said(t, "lists", plan, "--csv", dir, "--xlsx", book)
		if err := os.WriteFile(filepath.Join(dir, "unit.json"), said(t, "resolve", "--json", plan), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(python, "-c", agreeing, dir, book).CombinedOutput()
		if err != nil || !bytes.HasSuffix(bytes.TrimSpace(out), []byte("agreed")) {
			t.Errorf("%s: %v\n%s", plan, err, out)
		}
	}
}

// said runs the command on a plan, which may have stops.
func said(t *testing.T, args ...string) []byte {
	t.Helper()
	var complaints bytes.Buffer
	cmd := exec.Command("setwright", args...)
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil && cmd.ProcessState.ExitCode() != exitStopped {
		t.Fatalf("%v: %v\n%s", args, err, complaints.Bytes())
	}
	return out
}

// hostilePlan writes a plan whose words a spreadsheet might run, or a reader
// trip over.
func hostilePlan(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"plan.yaml": `plan: 1
title: "=1+1 & <b>"
date: 2027-02-15
goods: [goods.yaml]
unit:
  frame: gondola-h-48
  stand: casters-locking
  panels: {front: grid-24x60, right: grid-24x60, left: grid-24x60}
dress:
  front:
    - {use: hook-6, label: "@cmd", bay: 1, at: 57in, goods: {"=A1": 1, "'+B": 1, C: 1}}
`,
		"goods.yaml": `measure: in
goods:
  "=A1": {name: '=HYPERLINK("http://a.example","Seeds")', family: "-1\n=2", form: peg, width: 3, height: 4.5, depth: 0.5}
  "'+B": {name: '-2+3, "quoted"', family: "@SUM(1)", form: peg, width: 3, height: 4.5, depth: 0.5}
  C: {name: "漢字 😀 ]]> _x0041_", family: "two\nlines", form: peg, width: 3, height: 4.5, depth: 0.5, case: 12, gtin: 00012345678905}
`,
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(dir, "plan.yaml")
}
