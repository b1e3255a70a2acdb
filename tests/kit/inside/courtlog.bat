@echo off
rem Starts courtlog from this folder. The first time it is installed here, without a network.
setlocal DisableDelayedExpansion
if not exist "%~dp0start.py" (
    echo Unpack the whole zip first: right-click it, Extract All. Then double-click courtlog.bat in the new folder.
    pause
    exit /b 1
)
rem A Python that is missing is not to be fetched from the network.
set "PYTHON_MANAGER_AUTOMATIC_INSTALL=false"
set "PYTHON="
for %%V in (@PYTHONS@) do if not defined PYTHON py -%%V "%~dp0start.py" --fits >nul 2>nul && set "PYTHON=py -%%V"
if not defined PYTHON python "%~dp0start.py" --fits >nul 2>nul && set "PYTHON=python"
if not defined PYTHON (
    echo @NO_PYTHON@
    pause
    exit /b 1
)
%PYTHON% "%~dp0start.py" %*
set "CODE=%errorlevel%"
if not "%CODE%"=="0" if "%~1"=="" pause
exit /b %CODE%
