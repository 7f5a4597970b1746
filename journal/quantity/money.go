package quantity

import "strings"

// moneyUnits returns the currencies, each by its ISO 4217 code, which is what the site shows. Signs that several share (£, $, kr, ¥)
// stay unclear until a code says which. The codes and signs are common practice; amounts are never converted.
func moneyUnits() []*Unit {
	var all []*Unit
	for _, row := range strings.Split(currencies, "\n") {
		part := strings.Split(row, "|")
		u := unit(part[0], part[1], Money, 1, "ISO 4217", strings.Join(part[2:], "|"))
		u.Currency = u.Symbol
		u.Spellings = append(u.Spellings, strings.ToLower(u.Symbol))
		all = append(all, u)
	}
	return all
}

// currencies holds code, name, then signs.
const currencies = `AED|UAE dirham
ARS|Argentine peso|$|AR$
AUD|Australian dollar|$|A$|AU$
BDT|Bangladeshi taka|৳
BGN|Bulgarian lev|лв
BRL|Brazilian real|R$
CAD|Canadian dollar|$|C$|CA$
CHF|Swiss franc|Fr|SFr
CLP|Chilean peso|$
CNY|Chinese yuan|¥|元|RMB
COP|Colombian peso|$
CZK|Czech koruna|Kč
DKK|Danish krone|kr
EGP|Egyptian pound|E£|£E
EUR|euro|€
FKP|Falkland Islands pound|£
GBP|pound sterling|£
GIP|Gibraltar pound|£
HKD|Hong Kong dollar|$|HK$
HUF|Hungarian forint
IDR|Indonesian rupiah|Rp
ILS|Israeli new shekel|₪
INR|Indian rupee|₹|Rs
ISK|Icelandic króna|kr
JPY|Japanese yen|¥|円
KES|Kenyan shilling|KSh
KRW|South Korean won|₩
LKR|Sri Lankan rupee|Rs
MXN|Mexican peso|$|MX$
MYR|Malaysian ringgit|RM
NGN|Nigerian naira|₦
NOK|Norwegian krone|kr
NPR|Nepalese rupee|Rs
NZD|New Zealand dollar|$|NZ$
PHP|Philippine peso|₱
PKR|Pakistani rupee|Rs
PLN|Polish złoty|zł
RON|Romanian leu
RSD|Serbian dinar
RUB|Russian rouble|₽
SAR|Saudi riyal
SEK|Swedish krona|kr
SGD|Singapore dollar|$|S$
SHP|Saint Helena pound|£
THB|Thai baht|฿
TRY|Turkish lira|₺
TWD|New Taiwan dollar|$|NT$
UAH|Ukrainian hryvnia|₴
USD|US dollar|$|US$
UYU|Uruguayan peso|$
VND|Vietnamese dong|₫
ZAR|South African rand|R`
