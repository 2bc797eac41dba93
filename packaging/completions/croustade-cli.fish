# Completion of croustade-cli in fish.

set -l commands new load dump add cost plan allergens prices history undo workbook card month close reopen check

complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a new -d 'Make an empty book'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a load -d 'Load a folder of tables into a book'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a dump -d 'Write all tables of a book into a folder'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a add -d 'Change and add rows by their keys'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a history -d 'Print what was changed, by whom and when'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a undo -d 'Take an act back'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a cost -d 'Cost plates, menus and items'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a plan -d 'What to make and buy for a service'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a allergens -d 'What plates contain, and who carries it in'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a prices -d 'Post a price list, a message or an invoice'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a workbook -d "Write the office's spreadsheet"
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a card -d 'Print cost cards or kitchen cards'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a month -d "Print a month's statement"
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a close -d 'Close a month'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a reopen -d 'Open a closed month again'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -f \
    -a check -d 'Verify the file and the costing model'
complete -c croustade-cli -n "not __fish_seen_subcommand_from $commands" -l version -d 'Show the version'
complete -c croustade-cli -l help -d 'Show help'
complete -c croustade-cli -n '__fish_seen_subcommand_from load' -l replace \
    -d 'Make the tables those of the folder, in one act'
complete -c croustade-cli -n '__fish_seen_subcommand_from dump' -l salvage \
    -d 'Of a damaged book, what can be read'
complete -c croustade-cli -n '__fish_seen_subcommand_from add' -l dry-run \
    -d 'Say what would change, and change nothing'
complete -c croustade-cli -n '__fish_seen_subcommand_from add' -l again \
    -d 'Add rows that the book has already'
complete -c croustade-cli -n '__fish_seen_subcommand_from history' -l last -x \
    -d 'The newest so many alone'
complete -c croustade-cli -n '__fish_seen_subcommand_from history' -l json \
    -d 'Print it for a program'
complete -c croustade-cli -n '__fish_seen_subcommand_from cost' -l on -x -a '(date +%F)' \
    -d 'Prices of that day'
complete -c croustade-cli -n '__fish_seen_subcommand_from cost' -l as-of -x -a '(date +%F)' \
    -d 'The book as it stood at the end of that day'
complete -c croustade-cli -n '__fish_seen_subcommand_from cost' -l plate -x \
    -d 'The cost card of that plate'
complete -c croustade-cli -n '__fish_seen_subcommand_from cost' -l menu -x \
    -d 'The cost card of that menu'
complete -c croustade-cli -n '__fish_seen_subcommand_from cost' -l json \
    -d 'Print figures for a program, unrounded'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l supplier -x \
    -d 'Whose prices they are'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l from -x -a '(date +%F)' \
    -d 'The day from which they hold'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l accept -x \
    -d 'A line that waits is right'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l accept-all \
    -d 'All lines that wait for a second look are right'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l accept-seller \
    -d 'The invoice is of this supplier'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l is -x \
    -d 'What a line is, LINE=NAME, disposable, other, return or price'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l holds -x \
    -d 'What one pack of a line holds, LINE=PACK'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l charges -x -a 'spread book leave' \
    -d 'What becomes of charges on a whole invoice'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l dry-run \
    -d 'Say what would change, and change nothing'
complete -c croustade-cli -n '__fish_seen_subcommand_from prices' -l json \
    -d 'Print it for a program'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -l covers -x \
    -d 'Covers of a plate or menu, NAME=N'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -l have -x \
    -d 'What is in the house already, NAME=AMOUNT UNIT'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -l service -x \
    -a '(date +%F)/' -d 'A service of the book, DATE/NAME'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -l on -x -a '(date +%F)' \
    -d 'Prices of that day'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -l json \
    -d 'Print figures for a program, unrounded'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -l orders \
    -d 'Print the orders alone, a text for each supplier'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -s o -l output -r \
    -d 'Write the sheets of the service'
complete -c croustade-cli -n '__fish_seen_subcommand_from plan' -l language -x \
    -a 'en fr' -d 'Language of the sheets'
complete -c croustade-cli -n '__fish_seen_subcommand_from allergens' -l menu -x \
    -d 'The plates of that menu alone'
complete -c croustade-cli -n '__fish_seen_subcommand_from allergens' -l avoids -x \
    -a 'gluten crustaceans eggs fish peanuts soybeans milk nuts celery mustard sesame sulphites lupin molluscs tree-nuts wheat' \
    -d 'What a guest avoids'
complete -c croustade-cli -n '__fish_seen_subcommand_from allergens' -l list -x \
    -a 'eu us' -d 'The list of the EU or of the US'
complete -c croustade-cli -n '__fish_seen_subcommand_from allergens' -l on -x -a '(date +%F)' \
    -d 'The date that is shown'
complete -c croustade-cli -n '__fish_seen_subcommand_from allergens' -l json \
    -d 'Print it for a program'
complete -c croustade-cli -n '__fish_seen_subcommand_from allergens' -s o -l output -r \
    -d 'Write a sheet: .pdf, .xlsx or .csv'
complete -c croustade-cli -n '__fish_seen_subcommand_from allergens' -l language -x \
    -a 'en fr' -d 'Language of the sheet'
complete -c croustade-cli -n '__fish_seen_subcommand_from workbook' -l month -x \
    -a '(date +%Y-%m)' -d 'Prices of the last day of that month'
complete -c croustade-cli -n '__fish_seen_subcommand_from workbook' -l language -x \
    -a 'en fr' -d 'Language of its words'
complete -c croustade-cli -n '__fish_seen_subcommand_from workbook' -s o -l output -r \
    -d 'The file to write'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l plate -x \
    -d 'The card of that plate'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l menu -x \
    -d 'The card of that menu'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l preparation -x \
    -d 'The card of that preparation'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l all \
    -d 'Cards of all plates, menus and preparations'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l kitchen \
    -d 'Kitchen cards, without money'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l bites -x \
    -d 'For so many bites, guests or batches'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l money \
    -d 'Costs on kitchen cards too'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l paper -x -a 'a4 letter' \
    -d 'Size of the paper'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l on -x -a '(date +%F)' \
    -d 'Prices of that day'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -l language -x -a 'en fr' \
    -d 'Language of its words'
complete -c croustade-cli -n '__fish_seen_subcommand_from card' -s o -l output -r \
    -d 'The file to write, or a folder'
complete -c croustade-cli -n '__fish_seen_subcommand_from month' -l against -x \
    -a '(date +%Y-%m)' -d 'Why food cost is another than in that month'
complete -c croustade-cli -n '__fish_seen_subcommand_from month' -l journal -r \
    -d 'Write what the end of the month books'
complete -c croustade-cli -n '__fish_seen_subcommand_from month workbook' -l accounts -r \
    -d 'The accounts of the journal'
complete -c croustade-cli -n '__fish_seen_subcommand_from month' -l language -x -a 'en fr' \
    -d 'Language of the journal'
complete -c croustade-cli -n '__fish_seen_subcommand_from month' -l matrix \
    -d 'How often plates were sold and what one left'
complete -c croustade-cli -n '__fish_seen_subcommand_from month' -l json \
    -d 'Print figures for a program, unrounded'
complete -c croustade-cli -n '__fish_seen_subcommand_from close' -l estimate -x \
    -d 'Food whose documents are still to come'
complete -c croustade-cli -n '__fish_seen_subcommand_from reopen' -l reason -x \
    -d 'Why it is opened again'
