# courtlog: TAB goes on with commands, options, players, clinics, drills, dates and files.
Register-ArgumentCompleter -Native -CommandName courtlog -ScriptBlock {
    param($word, $ast, $cursor)
    $before = @($ast.CommandElements | Select-Object -Skip 1 |
        Where-Object { $_.Extent.EndOffset -lt $cursor } |
        ForEach-Object { if ($null -ne $_.Value) { "$($_.Value)" } else { $_.Extent.Text } })
    $begun = "$word".Trim("'", '"')
    $env:_COURTLOG_COMPLETE = 'powershell'
    $env:_COURTLOG_WORDS = (@("") + $before + $begun) -join "`n"
    try { $rows = @(& $ast.CommandElements[0].Value 2>$null) }
    finally { Remove-Item Env:_COURTLOG_COMPLETE, Env:_COURTLOG_WORDS }
    if ($rows.Count -and $rows[0] -in 'files', 'folders') {
        [System.Management.Automation.CompletionCompleters]::CompleteFilename($word)
    }
    else {
        $found = [ordered]@{}
        $rows | Select-Object -Skip 1 | ForEach-Object {
            if ($_.StartsWith(' ')) { $found[$value] = $_.Trim() }
            else { $value = $_; $found[$value] = $value }
        }
        foreach ($value in $found.Keys) {
            $text = if ($value -match '^[\w./=-]+$') { $value }
                else { "'" + $value.Replace("'", "''") + "'" }
            [System.Management.Automation.CompletionResult]::new(
                $text, $value, 'ParameterValue', $found[$value])
        }
    }
}
